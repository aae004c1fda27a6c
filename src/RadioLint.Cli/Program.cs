using RadioLint.Cli.Commands;
using RadioLint.Cli.Terminal;

using var around = Surroundings.OfProcess();
return (int)Verbs.Run(args, around);
