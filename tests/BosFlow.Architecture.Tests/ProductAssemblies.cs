using System.Reflection;

namespace BosFlow.Architecture.Tests;

/// <summary>The assemblies of src, as they were built for these tests.</summary>
internal static class ProductAssemblies
{
    public const string Numerics = "BosFlow.Numerics";
    public const string Domain = "BosFlow";
    public const string Media = "BosFlow.Media";
    public const string Results = "BosFlow.Results";
    public const string Cli = "BosFlow.Cli";

    public static IReadOnlyList<string> Names { get; } = [Numerics, Domain, Media, Results, Cli];

    public static TheoryData<string> AllNames => [.. Names];

    public static Assembly Load(string name) => Assembly.Load(name);

    /// <summary>The types written by hand: those that the compiler adds to every assembly are left out.</summary>
    public static IEnumerable<Type> TypesOf(string name) => Load(name).GetTypes()
        .Where(type => type.Namespace?.StartsWith("BosFlow", StringComparison.Ordinal) == true);
}
