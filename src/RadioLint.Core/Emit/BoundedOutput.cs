using System.Text;
using Scriban;
using Scriban.Runtime;

namespace RadioLint.Emit;

/// <summary>What a template has written so far, up to a bound. The engine's own bound would cut the text off without a word.</summary>
internal sealed class BoundedOutput(TemplateContext context) : IScriptOutput
{
    /// <summary>In UTF-16 units; a header of the largest network that six pipes allow stays below a tenth of it.</summary>
    public const int Most = 1 << 20;

    private readonly StringBuilder text = new();

    public void Write(string text, int offset, int count)
    {
        if (this.text.Length + count > Most)
            throw new OutputTooLong(context.CurrentSpan);
        this.text.Append(text, offset, count);
    }

    public ValueTask WriteAsync(string text, int offset, int count, CancellationToken cancellationToken)
    {
        Write(text, offset, count);
        return ValueTask.CompletedTask;
    }

    public override string ToString() => text.ToString();
}
