using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Runtime.CompilerServices;
using System.Runtime.Loader;

namespace RadioLint.Mutation;

/// <summary>The tests' facts and theories, called without a runner: a run of all takes seconds, and of one no time at all.</summary>
internal sealed class TestCases
{
    /// <summary>Classes and methods that are left out: they take long and judge nothing that the others do not.</summary>
    public static readonly string[] LeftOut =
    [
        // Hostile and cut-off input.
        "RadioLint.Tests.Manifest.RobustnessTests",
        "RadioLint.Tests.Survey.HostileLogTests",
        // Every fixture once more, in another form or against the schema.
        "RadioLint.Tests.Manifest.SameMeaningTests",
        "RadioLint.Tests.Manifest.EffectiveManifestTests",
        "RadioLint.Tests.Manifest.JsonSchemaTests",
        // Networks at random, hundreds at a time.
        "RadioLint.Tests.Planning.AnyNetwork",
        "RadioLint.Tests.Planning.CheapestPlans",
        "RadioLint.Tests.Planning.FilledNetworks",
        "RadioLint.Tests.Planning.FilledProperties",
        "RadioLint.Tests.Properties.RuleProperties",
        "RadioLint.Tests.Survey.SyntheticSiteTests",
        // Data files against their schemas and another parser.
        "RadioLint.Tests.Hardware.DataFileSchemaTests",
        "RadioLint.Tests.Hardware.DataTreeTests",
    ];

    private readonly Type control;

    public TestCases(string core, string tests)
    {
        var path = Path.Combine(tests, "RadioLint.Core.Tests.dll");
        var resolver = new AssemblyDependencyResolver(path);
        var context = new AssemblyLoadContext("tests");
        context.Resolving += (_, name) => name.Name == "RadioLint.Core" ? context.LoadFromAssemblyPath(core)
            : resolver.ResolveAssemblyToPath(name) is { } found ? context.LoadFromAssemblyPath(found) : null;
        control = context.LoadFromAssemblyPath(core).GetType("RadioLint.Mutation.Switch")!;
        Assembly = context.LoadFromAssemblyPath(path);
    }

    public Assembly Assembly { get; }

    public bool[] Passed => (bool[])control.GetField("Passed")!.GetValue(null)!;

    public int Active { set => control.GetField("Active")!.SetValue(null, value); }

    /// <summary>In the order of their names. Whoever adds a kind of test that is not known here is told.</summary>
    public List<TestCase> All()
    {
        var cases = new List<TestCase>();
        foreach (var type in Assembly.GetTypes().Where(type => !LeftOut.Contains(type.FullName) && !type.IsAbstract).OrderBy(type => type.FullName, StringComparer.Ordinal))
        {
            foreach (var method in type.GetMethods().Where(method => Attributes(method, "FactAttribute").Any()).OrderBy(method => method.Name, StringComparer.Ordinal))
            {
                if (type.GetInterfaces().Length > 0 || method.ReturnType != typeof(void) || method.IsGenericMethod)
                    throw new NotSupportedException($"{type}.{method.Name} is a kind of test that cannot be called yet");
                var rows = Attributes(method, "TheoryAttribute").Any() ? Attributes(method, "DataAttribute").SelectMany(data => Rows(type, data)) : [[]];
                cases.AddRange(rows.Select((row, at) => new TestCase($"{type.FullName}.{method.Name}[{at}]", method, Arguments(method, row))));
            }
        }
        return cases;
    }

    private static IEnumerable<Attribute> Attributes(MethodInfo method, string name) =>
        method.GetCustomAttributes().Where(attribute => Lineage(attribute.GetType()).Any(type => type.Name == name && type.Namespace is "Xunit" or "Xunit.v3"));

    private static IEnumerable<Type> Lineage(Type? type)
    {
        for (; type is not null; type = type.BaseType)
            yield return type;
    }

    private static IEnumerable<object?[]> Rows(Type type, Attribute data)
    {
        if (Property(data, "MemberName") is not string member)
            return [(object?[])Property(data, "Data")!];
        var source = Property(data, "MemberType") as Type ?? type;
        var rows = source.GetProperty(member)?.GetValue(null) ?? source.GetMethod(member)!.Invoke(null, []);
        return ((IEnumerable)rows!).Cast<object>().Select(row => row switch
        {
            object?[] values => values,
            ITuple tuple => [.. Enumerable.Range(0, tuple.Length).Select(at => tuple[at])],
            _ => (object?[])row.GetType().GetInterface("Xunit.ITheoryDataRow")!.GetMethod("GetData")!.Invoke(row, [])!,
        });
    }

    private static object?[] Arguments(MethodInfo method, object?[] row)
    {
        var parameters = method.GetParameters();
        var rest = parameters.Length - 1;
        if (rest >= 0 && parameters[rest].IsDefined(typeof(ParamArrayAttribute)) && !(row.Length == parameters.Length && parameters[rest].ParameterType.IsInstanceOfType(row[rest])))
        {
            var last = Array.CreateInstance(parameters[rest].ParameterType.GetElementType()!, row.Length - rest);
            Array.Copy(row, rest, last, 0, last.Length);
            row = [.. row[..rest], last];
        }
        return [.. parameters.Select((parameter, at) => at < row.Length ? Fitting(row[at], parameter.ParameterType) : parameter.DefaultValue)];
    }

    // An attribute writes every number as an `int`; the runner makes a `byte` of it where a test takes one.
    private static object? Fitting(object? value, Type wanted) =>
        value is int && wanted.IsPrimitive && !wanted.IsInstanceOfType(value) ? Convert.ChangeType(value, wanted, CultureInfo.InvariantCulture) : value;

    private static object? Property(object of, string name) => of.GetType().GetProperty(name)?.GetValue(of);
}

internal sealed record TestCase(string Name, MethodInfo Method, object?[] Arguments)
{
    /// <summary>What made it fail, or null.</summary>
    public Exception? Run()
    {
        try
        {
            Method.Invoke(Method.IsStatic ? null : Instance(Method.DeclaringType!), Arguments);
            return null;
        }
        catch (TargetInvocationException failed)
        {
            return failed.InnerException;
        }
    }

    // A class may ask for what the runner gives, such as a place to print to: it gets one that does nothing.
    private static object Instance(Type type) =>
        Activator.CreateInstance(type, [.. type.GetConstructors()[0].GetParameters().Select(asked => DispatchProxy.Create(asked.ParameterType, typeof(Nothing)))])!;
}

/// <summary>Takes any call and does nothing.</summary>
public class Nothing : DispatchProxy
{
    /// <inheritdoc/>
    protected override object? Invoke(MethodInfo? targetMethod, object?[]? args) => null;
}
