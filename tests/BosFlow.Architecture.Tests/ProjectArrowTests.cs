namespace BosFlow.Architecture.Tests;

/// <summary>Arrows between projects point one way, and each library is known to the projects it is there for.</summary>
public sealed class ProjectArrowTests
{
    /// <summary>What each project may refer to of the others.</summary>
    private static readonly Dictionary<string, string[]> AllowedProjects = new()
    {
        [ProductAssemblies.Numerics] = [],
        [ProductAssemblies.Domain] = [ProductAssemblies.Numerics],
        [ProductAssemblies.Media] = [ProductAssemblies.Domain, ProductAssemblies.Numerics],
        [ProductAssemblies.Results] = [ProductAssemblies.Domain, ProductAssemblies.Numerics],
        [ProductAssemblies.Cli] = [ProductAssemblies.Domain, ProductAssemblies.Media, ProductAssemblies.Results],
    };

    /// <summary>Who may refer to a library; an assembly whose name begins so counts as that library.</summary>
    private static readonly Dictionary<string, string[]> LibraryOwners = new()
    {
        ["OpenCvSharp"] = [ProductAssemblies.Media],
        ["PureHDF"] = [ProductAssemblies.Results],
        ["SixLabors."] = [ProductAssemblies.Results],
        ["SkiaSharp"] = [ProductAssemblies.Results],
        ["ScottPlot"] = [ProductAssemblies.Results],
        ["Tomlyn"] = [ProductAssemblies.Cli],
        ["System.CommandLine"] = [ProductAssemblies.Cli],
        ["Spectre.Console"] = [ProductAssemblies.Cli],
        ["Serilog"] = [ProductAssemblies.Cli],
        ["MathNet.Numerics"] = [ProductAssemblies.Numerics, ProductAssemblies.Domain],
    };

    [Theory]
    [MemberData(nameof(ProductAssemblies.AllNames), MemberType = typeof(ProductAssemblies))]
    public void Project_RefersTo_OnlyTheProjectsBelowIt(string project)
    {
        IEnumerable<string> others = ReferencesOf(project).Where(name => ProductAssemblies.Names.Contains(name));

        SourceTree.AssertNone(others.Except(AllowedProjects[project]).Select(other => $"{project} must not refer to {other}"));
    }

    [Theory]
    [MemberData(nameof(ProductAssemblies.AllNames), MemberType = typeof(ProductAssemblies))]
    public void Project_RefersTo_OnlyTheLibrariesItOwns(string project)
    {
        IEnumerable<string> foreign = ReferencesOf(project)
            .Where(name => !ProductAssemblies.Names.Contains(name) && !IsPartOfRuntime(name))
            .Where(name => !LibraryOwners.Any(owner => name.StartsWith(owner.Key, StringComparison.Ordinal) && owner.Value.Contains(project)));

        SourceTree.AssertNone(foreign.Select(name => $"{project} must not refer to {name}; the table of owners is in {nameof(ProjectArrowTests)}"));
    }

    private static IEnumerable<string> ReferencesOf(string project) =>
        ProductAssemblies.Load(project).GetReferencedAssemblies().Select(name => name.Name!);

    // System.CommandLine has the prefix of the runtime but comes as a package.
    private static bool IsPartOfRuntime(string name) =>
        name is "netstandard" or "mscorlib" ||
        (name.StartsWith("System.", StringComparison.Ordinal) && name != "System.CommandLine") ||
        name is "Microsoft.Win32.Primitives";
}
