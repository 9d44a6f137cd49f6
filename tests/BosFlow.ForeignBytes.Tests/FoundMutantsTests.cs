using BosFlow.ForeignBytes.Readers;

namespace BosFlow.ForeignBytes.Tests;

/// <summary>Mutants that a reader once took badly.</summary>
public sealed class FoundMutantsTests
{
    public static TheoryData<string, int> Mutants => new()
    {
        // Texts of a global heap that claim more than a gigabyte.
        { "frame", 790 },
        { "summary", 1066 },
        { "summary", 1898 },

        // Attributes that claim some hundred megabytes.
        { "frame", 260 },
        { "frame", 278 },
        { "frame", 872 },

        // A pair of numbers one of which is infinite.
        { "run", 1537 },
    };

    [Theory]
    [MemberData(nameof(Mutants))]
    public async Task Reader_OfAMutantOnceTakenBadly_ReadsOrRefusesIt(string name, int number)
    {
        ForeignReader reader = ForeignReaders.All.Single(reader => reader.Name == name);

        Verdict verdict = Assert.Single(await Campaign.RunAsync(reader, number, 1));

        Assert.True(verdict.IsAllowed, verdict.ToLine());
    }
}
