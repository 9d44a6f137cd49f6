using System.Xml.Linq;
using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests;

/// <summary>Public members are documented: the compiler warns of those that are not, and nobody silences it.</summary>
public sealed class DocumentationTests
{
    [Theory]
    [MemberData(nameof(ProductAssemblies.AllNames), MemberType = typeof(ProductAssemblies))]
    public void PublicTypes_OfAnyAssembly_HaveASummary(string assembly)
    {
        var documentation = XDocument.Load(Path.ChangeExtension(ProductAssemblies.Load(assembly).Location, ".xml"));
        HashSet<string> documented =
        [
            .. documentation.Descendants("member")
                .Where(member => !string.IsNullOrWhiteSpace(member.Element("summary")?.Value))
                .Select(member => member.Attribute("name")!.Value),
        ];

        SourceTree.AssertNone(
            from type in ProductAssemblies.TypesOf(assembly)
            where type.IsPublic && !documented.Contains($"T:{type.FullName}")
            select $"{type.FullName} has no summary");
    }

    [Fact]
    public void MissingDocumentation_InSources_IsSilencedNowhere()
    {
        IEnumerable<string> projects = Directory.EnumerateFiles(Repository.PathOf("src"), "*.csproj", SearchOption.AllDirectories);
        IEnumerable<string> findings = projects.Concat(SourceTree.Files("src"))
            .Where(file => File.ReadAllText(file).Contains("CS1591", StringComparison.Ordinal))
            .Select(file => $"{SourceTree.Relative(file)} silences CS1591");

        SourceTree.AssertNone(findings);
        Assert.Contains("<GenerateDocumentationFile>true<", File.ReadAllText(Repository.PathOf("Directory.Build.props")), StringComparison.Ordinal);
    }
}
