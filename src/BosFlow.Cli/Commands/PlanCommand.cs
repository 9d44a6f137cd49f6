using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Planning;
using BosFlow.Planning;
using BosFlow.Results.Plans;

namespace BosFlow.Cli.Commands;

/// <summary>Tells before the rig is built what it will see.</summary>
public static class PlanCommand
{
    private const string DocumentName = "plan";
    private const int DocumentVersion = 1;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var caseFile = new Argument<string?>("CASE")
        {
            Description = "The case file, or the folder with a case.toml in it; not needed where options say everything. Its footage need not exist yet.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var sweep = new Option<string[]>("--sweep")
        {
            Description = $"Vary one quantity, or two by giving it twice: {SweepSyntax.InWords}. Quantities: {string.Join(", ", SweptQuantity.All.Select(quantity => quantity.Name))}.",
            HelpName = "NAME=VALUES",
        };
        var optimise = new Option<bool>("--optimise") { Description = "Look for the best distances, lens and aperture within [limits]." };
        var output = new Option<string?>("--output", "-o") { Description = "Write plan.html, plan.json and pictures into this folder.", HelpName = "FOLDER" };
        var force = new Option<bool>("--force") { Description = "Replace plan files that are in the folder." };
        var options = new PlanOptions();
        var command = new ExampleCommand("plan", "Tell before a rig is built what it will see: sensitivity, blur, smear, dots, best distances.")
        {
            Examples =
            [
                ("bosflow plan my-flight/case.toml", "the sheet: what will be seen, and what to change"),
                ("bosflow plan my-flight/case.toml --f-number 5.6 --window-px 48", "the same with another aperture and window; options win over the file"),
                ("bosflow plan my-flight/case.toml --sweep split=0.2:0.8", "where between lens and board the flow should be"),
                ("bosflow plan my-flight/case.toml --sweep f_number=2.8:22 --sweep focal_length_mm=12,16,25", "the ratio of signal to noise over aperture and lens"),
                ("bosflow plan my-flight/case.toml --optimise --output my-plan", "the best rigs within [limits], with the page and its pictures"),
            ],
            Remarks = ["Every option with a unit stands for the key of that name in the case file (bosflow new writes a commented one)."],
        };
        command.Add(caseFile);
        command.Add(sweep);
        command.Add(optimise);
        command.Add(output);
        command.Add(force);
        options.AddTo(command);
        command.SetAction((parsed, cancellationToken) =>
        {
            var settings = new PlanSettings
            {
                CasePath = parsed.GetValue(caseFile) is { } path ? environment.Absolute(path) : null,
                Options = options.Read(parsed),
                Sweeps = parsed.GetValue(sweep) ?? [],
                Optimise = parsed.GetValue(optimise),
                OutputFolder = parsed.GetValue(output) is { } folder ? environment.Absolute(folder) : null,
                Force = parsed.GetValue(force),
            };
            return Task.Run(() => Run(settings, Talk.Of(parsed, environment), cancellationToken), CancellationToken.None);
        });
        return command;
    }

    private static int Run(PlanSettings settings, Talk talk, CancellationToken cancellationToken)
    {
        IReadOnlyList<SweepAxis> axes = SweepSyntax.Read(settings.Sweeps);
        if (settings.OutputFolder is { } wanted)
            PlanFolder.Check(wanted, PlanStudies.PictureNames(settings), settings.Force);
        PlanCase plan = PlanCaseReader.Read(settings.CasePath, settings.Options);
        PlanResult result = Planner.Judge(plan.Request, cancellationToken);
        IReadOnlyList<PlanStudy> studies = PlanStudies.Of(plan, result, axes, settings.Optimise, cancellationToken);
        foreach (string line in studies.SelectMany(PlanWords.Of).Concat(studies.Count == 0 ? PlanWords.Of(result) : PlanWords.Cautions()))
            talk.Result(line);
        JsonObject content = Document(result, studies);
        if (settings.OutputFolder is { } folder)
        {
            IReadOnlyList<string> files = PlanFolder.Write(folder, result, studies, Talk.Headed(DocumentName, DocumentVersion, content), VersionLine.Text);
            talk.Say($"The page is {files[0]}.");
        }

        talk.Document(DocumentName, DocumentVersion, content);
        return ExitCode.Done;
    }

    private static JsonObject Document(PlanResult result, IReadOnlyList<PlanStudy> studies)
    {
        JsonObject content = PlanJson.Of(result);
        foreach (PlanStudy study in studies)
            content[Path.GetFileNameWithoutExtension(study.FileName)] = study.Document.DeepClone();
        return content;
    }
}
