using System.Text.RegularExpressions;

namespace BosFlow.Architecture.Tests;

/// <summary>Folders are namespaces, a file holds one public type of its name, files stay short.</summary>
public sealed partial class SourceLayoutTests
{
    private const int LongestFile = 400;

    public static TheoryData<string> Folders => ["src", "tests"];

    [Theory]
    [MemberData(nameof(Folders))]
    public void Files_OfAnyFolder_StayShort(string folder) =>
        SourceTree.AssertNone(
            from file in SourceTree.Files(folder)
            let lines = File.ReadLines(file).Count()
            where lines > LongestFile
            select $"{SourceTree.Relative(file)} has {lines} lines, more than {LongestFile}");

    [Fact]
    public void Namespaces_OfTheSources_AreTheirFolders() =>
        SourceTree.AssertNone(
            from file in SourceTree.Files("src")
            let folder = Path.GetDirectoryName(Path.GetRelativePath("src", SourceTree.Relative(file)))!.Replace('/', '.')
            let declared = NamespaceLine().Match(File.ReadAllText(file))
            where declared.Success && declared.Groups[1].Value != folder
            select $"{SourceTree.Relative(file)} declares {declared.Groups[1].Value} in the folder of {folder}");

    [Fact]
    public void Files_OfTheSources_HoldOnePublicTypeOfTheirName() =>
        SourceTree.AssertNone(
            from file in SourceTree.Files("src")
            let stem = Path.GetFileName(file).Split('.')[0]
            from name in PublicTypesOf(file)
            where name != stem
            select $"{SourceTree.Relative(file)} declares the public type {name}");

    [Fact]
    public void PublicTypes_OfTheSources_AreAllSeenByThisScan()
    {
        HashSet<string> scanned = [.. SourceTree.Files("src").SelectMany(PublicTypesOf)];
        IEnumerable<string> built = ProductAssemblies.Names.SelectMany(ProductAssemblies.TypesOf)
            .Where(type => type.IsPublic)
            .Select(type => type.Name.Split('`')[0]);

        SourceTree.AssertNone(built.Where(name => !scanned.Contains(name)).Select(name => $"the source of {name} was not found"));
    }

    [Theory]
    [MemberData(nameof(Folders))]
    public void Pragmas_OfAnyFile_HaveTheirReasonBesideThem(string folder) =>
        SourceTree.AssertNone(
            from file in SourceTree.Files(folder)
            from line in File.ReadLines(file)
            where line.TrimStart().StartsWith("#pragma warning disable", StringComparison.Ordinal) && !line.Contains("//", StringComparison.Ordinal)
            select $"{SourceTree.Relative(file)}: {line.Trim()} has no reason after it");

    [Fact]
    public void Tests_OfAnyProject_AreNotSkipped() =>
        SourceTree.AssertNone(
            from file in SourceTree.Files("tests")
            from line in File.ReadLines(file)
            where SkippedTest().IsMatch(line)
            select $"{SourceTree.Relative(file)}: {line.Trim()}");

    [Theory]
    [InlineData("[Fact(Skip = \"slow\")]", true)]
    [InlineData("[Theory(DisplayName = \"x\", Skip=\"slow\")]", true)]
    [InlineData("[Fact]", false)]
    public void SkippedTest_Line_IsRecognised(string line, bool skipped) => Assert.Equal(skipped, SkippedTest().IsMatch(line));

    // With file-scoped namespaces a type of its own begins in the first column.
    private static IEnumerable<string> PublicTypesOf(string file) =>
        PublicType().Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value);

    [GeneratedRegex(@"^namespace ([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex NamespaceLine();

    [GeneratedRegex(@"^public (?:(?:sealed|static|abstract|partial|readonly|unsafe|ref|record|class|struct|interface|enum|delegate [\w<>\[\]]+) )+(\w+)", RegexOptions.Multiline)]
    private static partial Regex PublicType();

    [GeneratedRegex(@"^\s*\[(Fact|Theory)\(.*Skip\s*=")]
    private static partial Regex SkippedTest();
}
