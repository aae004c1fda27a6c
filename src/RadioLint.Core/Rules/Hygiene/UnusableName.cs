using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8015: a name that cannot become an identifier in C, C++ and C#, or becomes the same as another.</summary>
public static class UnusableName
{
    public static readonly Descriptor Rule = new(
        "RL8015", Severity.Error, "Name not usable as identifier",
        "reserved words of ISO C 1999 to 2023, ISO C++ 2011 to 2023 and C# 13; own rule for the form", "0.1");

    public static Finding Form(Place place, string name) =>
        new(Rule, place, $"`{name}` is not a name: lower-case letters, digits and single hyphens, a letter first, at most {Names.Longest} long",
            $"write `{Names.Mend(name)}`");

    public static Finding Reserved(Place place, string name, string language) =>
        new(Rule, place, $"`{name}` is a reserved word of {language}", $"choose another name, for instance `{name}-1` or `the-{name}`");

    public static Finding SameIdentifier(Place place, string name, Place other, string otherName, string identifier) =>
        new(Rule, place, name == otherName ? $"`{name}` stands twice" : $"`{name}` and `{otherName}` both become the identifier `{identifier}`", "rename one of the two")
        {
            Related = ImmutableArray.Create(new RelatedPlace(other, $"`{otherName}` stands here")),
        };
}
