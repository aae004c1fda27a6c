namespace RadioLint.Mutation;

/// <summary>What is compiled into the mutated Core: which mutant is at work, and which probes were passed.</summary>
internal static class MutantSwitch
{
    public const string Name = "global::RadioLint.Mutation.Switch";

    public static string Source(int probes) => $$"""
        namespace RadioLint.Mutation
        {
            public static class Switch
            {
                public static int Active;
                public static bool Never;
                public static readonly bool[] Passed = new bool[{{probes}}];

                public static void Hit(int probe) => Passed[probe] = true;

                public static int Case(int probe)
                {
                    Passed[probe] = true;
                    return Active;
                }
            }
        }
        """;
}
