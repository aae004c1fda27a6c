namespace RadioLint.Cli.Tests.Support;

/// <summary>Notes of a command that listens to a port, for who must not speak before it does.</summary>
internal sealed class ListeningNotes : StringWriter
{
    private readonly TaskCompletionSource begun = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public ListeningNotes() => NewLine = "\n";

    /// <summary>Done once the command has said that it listens.</summary>
    public Task Begun => begun.Task;

    public override void WriteLine(string? value)
    {
        base.WriteLine(value);
        if (value?.Contains("listening to", StringComparison.Ordinal) is true)
            begun.TrySetResult();
    }
}
