using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Running;
using BosFlow.Cli.Scenes;

namespace BosFlow.Cli.Queue;

/// <summary>What a queue says, for people and for machines.</summary>
internal static class QueueWords
{
    private const int DocumentVersion = 1;

    /// <summary>Tells which cases were refused before the first is begun.</summary>
    public static void TellRefused(Talk talk, IReadOnlyList<QueuedCase> cases)
    {
        foreach (QueuedCase one in cases.Where(one => one.Prepared is null))
        {
            foreach (string problem in one.Problems)
                talk.Fail($"{one.Name}: {problem}");
        }

        int left = cases.Count(one => one.Prepared is not null);
        if (left == 0)
            talk.Fail("No case of the queue can be begun; mend what is said of each.");
        else if (left < cases.Count)
            talk.Say($"{left} of {cases.Count} cases are in order and are begun now; mend the others meanwhile.");
    }

    /// <summary>Tells what became of the cases.</summary>
    public static void Tell(Talk talk, IReadOnlyList<CaseResult> results, int code, TimeSpan time)
    {
        TellTable(talk, results);
        int done = results.Count(result => result.State is CaseState.Done or CaseState.DoneWithLosses);
        talk.Result($"{done} of {results.Count} cases done in {DurationText.Of(time)}");
        if (code == ExitCode.Failed)
            talk.Result("Once the others are mended, the same command does them; finished frames are not measured again.");
        talk.Document("run-queue", DocumentVersion, new JsonObject
        {
            ["exit_code"] = code,
            ["seconds"] = Math.Round(time.TotalSeconds, 3),
            ["cases"] = new JsonArray([.. results.Select(Document)]),
        });
    }

    /// <summary>The table of cases, and beneath it why some were refused or failed.</summary>
    public static void TellTable(Talk talk, IReadOnlyList<CaseResult> results)
    {
        var table = new TextTable(["case", "state", "measured", "failed", "noise floor", "time"], [.. results.Select(Cells)]);
        foreach (string line in table.Lines())
            talk.Result(line);
        talk.Result(string.Empty);
        foreach (CaseResult result in results)
        {
            if (result.Problems.Count == 0 && result.Folder is { } folder)
                talk.Result($"{result.Name}: results in {folder}");
            foreach (string problem in result.Problems)
                talk.Result($"{result.Name}: {problem}");
        }
    }

    private static string[] Cells(CaseResult result) =>
    [
        result.Name,
        Word(result.State),
        result.FramesTotal is { } total ? string.Create(CultureInfo.InvariantCulture, $"{result.FramesMeasured} of {total}") : "-",
        result.FramesTotal is { } asked ? (asked - result.FramesMeasured!.Value).ToString(CultureInfo.InvariantCulture) : "-",
        double.IsFinite(result.NoiseFloor) ? string.Create(CultureInfo.InvariantCulture, $"{result.NoiseFloor:0.0000} px") : "-",
        result.Time is { } time ? DurationText.Of(time) : "-",
    ];

    private static string Word(CaseState state) => state switch
    {
        CaseState.Done => "done",
        CaseState.DoneWithLosses => "frames lost",
        CaseState.Refused => "refused",
        CaseState.Failed => "failed",
        _ => "interrupted",
    };

    private static JsonObject Document(CaseResult result) => new()
    {
        ["name"] = result.Name,
        ["case_file"] = result.File,
        ["state"] = Word(result.State),
        ["seconds"] = result.Time is { } time ? Math.Round(time.TotalSeconds, 3) : null,
        ["problems"] = new JsonArray([.. result.Problems.Select(problem => JsonValue.Create(problem))]),
        ["run"] = result.Document,
    };
}
