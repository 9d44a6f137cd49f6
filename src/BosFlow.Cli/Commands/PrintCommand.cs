using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Printing;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Commands;

/// <summary>Draws a background to print: random dots of a set size, with fiducials, rulers and a description.</summary>
public static class PrintCommand
{
    private const int DocumentVersion = 1;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var options = new PrintOptions();
        var command = new ExampleCommand("print", "Draw a background of random dots to print, with fiducials, rulers and a description.")
        {
            Examples =
            [
                ("bosflow print --paper A4 --dot-mm 1.0 --seed 5 --output board.pdf", "one sheet; board.json and board.dots.csv beside it say where every dot is"),
                ("bosflow print --paper A3 --board-mm 1200x800 --dot-mm 1.6 --output wall.pdf", "a large board cut to sheets, with crop marks and a page that shows how to glue them"),
                ("bosflow print --dot-px 2.7 --case my-flight/case.toml --output board.pdf", "dots of 2.7 px in the picture, by the distances and the camera in the case"),
                ("bosflow print --paper A2 --dot-mm 0.8,1.6 --output board.svg --output board.png --dpi 600", "two sizes for two zooms, as SVG and as PNG of true resolution"),
                ("bosflow print --board-mm 300x200 --paper A3 --dot-mm 3 --gap-mm 1 --contours board-cut.svg", "outlines for a laser cutter or plotter"),
                ("bosflow print --check photo.jpg --board board.json --output check.png", "reads the printed board back from a photo: dots, contrast, the printer's scale"),
            ],
            Remarks =
            [
                "Lengths are exact: print at 100 %, never with \u201cfit to page\u201d, and lay a steel rule along both rulers.",
                "The same options and --date give the same bytes. Matt paper; keep boards away from exhaust and flames.",
            ],
        };
        options.AddTo(command);
        var checkOptions = new BoardCheckOptions();
        checkOptions.AddTo(command);
        command.SetAction((parsed, cancellationToken) =>
        {
            PrintRequest request = options.Read(parsed);
            if (checkOptions.Read(parsed, request.Outputs, request.Force) is { } check)
                return Task.Run(() => BoardCheckAction.Run(check, Talk.Of(parsed, environment), environment, cancellationToken), CancellationToken.None);
            return Task.Run(() => Print(request, Talk.Of(parsed, environment), environment, cancellationToken), CancellationToken.None);
        });
        return command;
    }

    private static int Print(PrintRequest request, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        PrintJob job = PrintPreparation.Prepare(request, environment);
        Board board = BoardMaker.Make(job.Settings, cancellationToken);
        PrintWriter.Write(job, board, VersionLine.Text, cancellationToken);
        foreach (PrintFile file in job.Files)
            talk.Result(file.Path);
        foreach (string sentence in PrintWords.Of(job, board))
            talk.Say(sentence);
        foreach (string caution in PrintCautions.For(job))
            talk.Say($"Caution: {caution}");
        foreach (string warning in job.Warnings)
            talk.Warn(warning);
        talk.Document("print", DocumentVersion, Document(job, board));
        return ExitCode.Done;
    }

    private static JsonObject Document(PrintJob job, Board board) => new()
    {
        ["description"] = job.DescriptionPath,
        ["files"] = new JsonArray([.. job.Files.Select(file => (JsonNode)new JsonObject
        {
            ["kind"] = file.Kind.ToString().ToLowerInvariant(),
            ["path"] = file.Path,
            ["sheet"] = file.Sheet is { } sheet && job.Plan.Sheets.Count > 1 ? sheet.Name : null,
        })]),
        ["board_width_mm"] = Millimetres(job.Settings.WidthMetres),
        ["board_height_mm"] = Millimetres(job.Settings.HeightMetres),
        ["dots"] = board.Dots.Count,
        ["dot_mm"] = new JsonArray([.. job.Settings.Sizes.Select(size => (JsonNode)Millimetres(size.DiameterMetres))]),
        ["coverage"] = board.CoverageReached,
        ["fiducials"] = board.Fiducials.Count,
        ["sheets"] = job.Plan.Sheets.Count,
        ["warnings"] = new JsonArray([.. job.Warnings.Select(warning => (JsonNode)warning)]),
    };

    // Rounded to the 0.1 um of the description, so that 1 mm is written 1 and not 1.0000000000000002.
    private static double Millimetres(double metres) => Math.Round(metres * 1e3, 4);
}
