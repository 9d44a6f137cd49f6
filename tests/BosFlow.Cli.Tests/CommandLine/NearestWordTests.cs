using BosFlow.Cli.CommandLine;
using CsCheck;

namespace BosFlow.Cli.Tests.CommandLine;

public sealed class NearestWordTests
{
    [Theory]
    [InlineData("", "", 0)]
    [InlineData("", "abc", 3)]
    [InlineData("kitten", "sitting", 3)] // The textbook example of the edit distance (common practice, no source).
    [InlineData("rnu", "run", 1)]
    [InlineData("flow", "flow", 0)]
    public void Distance_KnownPairs_CountsEdits(string a, string b, int expected) =>
        Assert.Equal(expected, NearestWord.Distance(a, b));

    [Fact]
    public void Distance_AnyPair_IsSymmetricAndBounded() =>
        Gen.Select(Gen.String[Gen.Char.AlphaNumeric, 0, 9], Gen.String[Gen.Char.AlphaNumeric, 0, 9]).Sample((a, b) =>
        {
            int distance = NearestWord.Distance(a, b);
            return distance == NearestWord.Distance(b, a)
                && distance >= Math.Abs(a.Length - b.Length)
                && distance <= Math.Max(a.Length, b.Length)
                && (distance == 0) == (a == b);
        });

    [Theory]
    [InlineData("rnu", "run")]
    [InlineData("Render", "render")]
    [InlineData("doctro", "doctor")]
    [InlineData("xyzzy", null)]
    public void Find_Mistyped_GivesTheNearOneOrNone(string typed, string? expected) =>
        Assert.Equal(expected, NearestWord.Find(typed, ["new", "run", "doctor", "render"]));
}
