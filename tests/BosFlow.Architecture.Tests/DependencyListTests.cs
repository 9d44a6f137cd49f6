using System.Xml.Linq;
using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests;

/// <summary>Every package is pinned once, used, and has one line that says why it is there.</summary>
public sealed class DependencyListTests
{
    [Fact]
    public void PinnedPackages_AreExactly_ThoseThatProjectsUse()
    {
        IEnumerable<string> projects = Directory.EnumerateFiles(Repository.PathOf("src"), "*.csproj", SearchOption.AllDirectories)
            .Concat(Directory.EnumerateFiles(Repository.PathOf("tests"), "*.csproj", SearchOption.AllDirectories))
            .Append(Repository.PathOf("Directory.Build.props"));
        IEnumerable<string> used = projects.SelectMany(project => Names(project, "PackageReference")).Distinct();

        Assert.Equal(used.Order(StringComparer.Ordinal), Pinned().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void PinnedPackages_AreExactly_ThoseThatTheListExplains()
    {
        // A line of the list: | `Package` | licence | why |
        IEnumerable<string> explained = File.ReadLines(Repository.PathOf("docs", "dependencies.md"))
            .Where(line => line.StartsWith("| `", StringComparison.Ordinal))
            .Select(line => line.Split('`')[1]);

        Assert.Equal(Pinned().Order(StringComparer.Ordinal), explained.Order(StringComparer.Ordinal));
    }

    private static IEnumerable<string> Pinned() => Names(Repository.PathOf("Directory.Packages.props"), "PackageVersion");

    private static IEnumerable<string> Names(string project, string element) =>
        XDocument.Load(project).Descendants(element).Select(package => package.Attribute("Include")!.Value);
}
