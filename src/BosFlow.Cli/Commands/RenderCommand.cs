using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Commands;

/// <summary>Draws maps and report of a finished run again, without measuring anything.</summary>
public static class RenderCommand
{
    private const int DocumentVersion = 1;
    private const double FullTurn = 360;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var folder = new Argument<string>("RUNFOLDER") { Description = "Folder of a finished run (the one with run.json in it)." };
        var knifeEdge = new Option<double?>("--knife-edge-deg")
        {
            Description = "Direction of the gradient that the knife-edge view shows: 0 to the right, 90 upward; the run's own where not given.",
            HelpName = "ANGLE",
        };
        knifeEdge.Validators.Add(result =>
        {
            // A token that is no number at all gets the library's own message.
            if (result.Errors.Any() || result.Tokens.Count != 1 || !double.TryParse(result.Tokens[0].Value, System.Globalization.CultureInfo.InvariantCulture, out double angle))
                return;
            if (!(Math.Abs(angle) <= FullTurn))
                result.AddError($"--knife-edge-deg {result.Tokens[0].Value} is out of range; give degrees from -360 to 360.");
        });
        var command = new ExampleCommand("render", "Draw maps and report of a finished run again, without measuring.")
        {
            Examples =
            [
                ("bosflow render my-flight/run", "maps and report from the results in the folder"),
                ("bosflow render my-flight/run --knife-edge-deg 90", "a knife-edge view of the vertical gradient"),
            ],
        };
        command.Add(folder);
        command.Add(knifeEdge);
        command.SetAction((parsed, cancellationToken) => Task.Run(
            () =>
            {
                Talk talk = Talk.Of(parsed, environment);
                string path = environment.Absolute(parsed.GetRequiredValue(folder));
                string report = RunFolder.Render(path, parsed.GetValue(knifeEdge), environment.Clock, talk.Warn, cancellationToken);
                string maps = Path.Combine(path, "maps");
                talk.Result($"Maps:        {maps}");
                talk.Result($"Report:      {report}");
                talk.Document("render", DocumentVersion, new JsonObject { ["maps"] = maps, ["report"] = report });
                return ExitCode.Done;
            },
            cancellationToken));
        return command;
    }
}
