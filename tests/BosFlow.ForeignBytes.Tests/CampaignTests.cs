using BosFlow.ForeignBytes.Readers;

namespace BosFlow.ForeignBytes.Tests;

/// <summary>Every reader takes damaged input: read, or refused by a sentence.</summary>
public sealed class CampaignTests
{
    private const int MutantsOfFiles = 200;

    // Every one starts processes of ffmpeg.
    private const int MutantsOfVideos = 15;

    public static TheoryData<string> Readers => [.. ForeignReaders.All.Select(reader => reader.Name)];

    [Theory]
    [MemberData(nameof(Readers))]
    public async Task Reader_OfMutants_ReadsOrRefusesEach(string name)
    {
        ForeignReader reader = ForeignReaders.All.Single(reader => reader.Name == name);
        int count = name == "video-ffmpeg" ? MutantsOfVideos : MutantsOfFiles;

        IReadOnlyList<Verdict> verdicts = await Campaign.RunAsync(reader, 0, count);

        Assert.Equal(count, verdicts.Count);
        Assert.Empty(verdicts.Where(verdict => !verdict.IsAllowed).Select(verdict => verdict.ToLine()));
        // A campaign whose mutants were all accepted would not have damaged anything.
        Assert.Contains(verdicts, verdict => verdict.Outcome == Outcome.Refused);
    }
}
