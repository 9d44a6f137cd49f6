using System.Text.RegularExpressions;
using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests;

/// <summary>Links between the documents, and to pictures and folders of the repository, lead somewhere.</summary>
public sealed partial class DocumentLinkTests
{
    [Fact]
    public void RelativeLinks_OfAllDocuments_Exist()
    {
        string[] documents =
        [
            .. Directory.EnumerateFiles(Repository.Root, "*.md"),
            .. Directory.EnumerateFiles(Repository.PathOf("docs"), "*.md", SearchOption.AllDirectories),
        ];

        Assert.True(documents.Length > 10, "the documents were not found");
        SourceTree.AssertNone(
            from document in documents
            from Match link in Link().Matches(File.ReadAllText(document))
            let target = link.Groups[1].Value.Split('#')[0]
            where target.Length > 0 && !target.Contains("://", StringComparison.Ordinal)
            where !Path.Exists(Path.Combine(Path.GetDirectoryName(document)!, target))
            select $"{SourceTree.Relative(document)} links to {target}, which does not exist");
    }

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();
}
