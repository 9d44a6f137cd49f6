using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Planning;
using BosFlow.Cli.Triage;
using BosFlow.Results.Plans;
using BosFlow.Results.Triage;
using BosFlow.Triage;

namespace BosFlow.Cli.Commands;

/// <summary>Tells on the airfield whether a take is worth keeping.</summary>
public static class TriageCommand
{
    private const string DocumentName = "triage";
    private const int DocumentVersion = 1;
    private const int FramesBetweenRemarks = 32;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var footage = new Argument<string>("FOOTAGE") { Description = "A video, a folder of pictures, or a pattern in quotation marks." };
        var caseFile = new Option<string?>("--case") { Description = "Case file, or its folder: gives rig, region, window and frame rate.", HelpName = "CASE" };
        var output = new Option<string?>("--output", "-o") { Description = "Write triage.html and triage.json into this folder.", HelpName = "FOLDER" };
        var force = new Option<bool>("--force") { Description = "Replace the files of a triage that are in the folder." };
        var command = new ExampleCommand("triage", "Tell within a minute whether a take is usable, and what to change before the next one.")
        {
            Examples =
            [
                ("bosflow triage clip.mp4", "the verdict on the terminal"),
                ("bosflow triage clip.mp4 --case my-flight/case.toml --output verdict", "with the noise floor as a density gradient, and the page"),
                ("bosflow triage \"frames/*.png\"", "pictures in place of a video"),
            ],
            Remarks = ["Exit code 0: usable; 3: not usable. Short runs of frames spread over the take are looked at, and the time stamps of all."],
        };
        command.Add(footage);
        command.Add(caseFile);
        command.Add(output);
        command.Add(force);
        command.SetAction((parsed, cancellationToken) =>
        {
            string path = environment.Absolute(parsed.GetRequiredValue(footage));
            string? casePath = parsed.GetValue(caseFile) is { } given ? environment.Absolute(given) : null;
            string? folder = parsed.GetValue(output) is { } wanted ? environment.Absolute(wanted) : null;
            bool replaces = parsed.GetValue(force);
            return Task.Run(() => Run(path, casePath, folder, replaces, Talk.Of(parsed, environment), cancellationToken), CancellationToken.None);
        });
        return command;
    }

    private static int Run(string path, string? casePath, string? folder, bool force, Talk talk, CancellationToken cancellationToken)
    {
        if (folder is not null)
            TriageFolder.Check(folder, force);
        TriageRequest request = TriageOpener.Open(path, casePath, cancellationToken);
        TriageResult result = Triager.Judge(request, (done, all) => Remark(talk, done, all), cancellationToken);
        foreach (string warning in result.Info.Warnings)
            talk.Warn(warning);
        foreach (string line in Lines(result))
            talk.Result(line);
        JsonObject content = TriageJson.Of(result);
        if (folder is not null)
            talk.Say($"The page is {TriageFolder.Write(folder, result, Talk.Headed(DocumentName, DocumentVersion, content), VersionLine.Text)}.");
        talk.Document(DocumentName, DocumentVersion, content);
        return result.IsUsable ? ExitCode.Done : ExitCode.DoneWithLosses;
    }

    private static void Remark(Talk talk, int done, int all)
    {
        if (done % FramesBetweenRemarks == 0)
            talk.Say(FormattableString.Invariant($"{done} of {all} sampled frames are read."));
    }

    private static IEnumerable<string> Lines(TriageResult result)
    {
        yield return TriageSheet.Verdict(result);
        if (result.Findings.Count > 0)
            yield return "What to change before the next take, largest effect first";
        for (int i = 0; i < result.Findings.Count; i++)
        {
            foreach (string line in TextLines.Of($"{result.Findings[i].Sentence} {result.Findings[i].Remedy}", $"  {i + 1}. ", "     "))
                yield return line;
        }

        yield return "Figures";
        foreach ((string name, string value, string remark) in TriageSheet.Rows(result))
            yield return $"  {name,-16} {value,-34} {remark}";
        yield return "Cautions";
        foreach (string line in PlanCautions.Sentences.SelectMany(sentence => TextLines.Of(sentence, "  - ", "    ")))
            yield return line;
    }
}
