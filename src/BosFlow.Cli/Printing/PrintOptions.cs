using System.CommandLine;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>The options of print.</summary>
internal sealed class PrintOptions
{
    private static readonly Dictionary<string, BoardTones> TonesByWord = new(StringComparer.OrdinalIgnoreCase)
    {
        ["dark"] = BoardTones.Dark,
        ["inverted"] = BoardTones.Inverted,
        ["two-tone"] = BoardTones.TwoTone,
    };

    private readonly Option<string[]> output = new("--output", "-o")
    {
        Description = "File to write; its ending chooses the kind: .pdf, .svg or .png. May be given several times. The description goes beside the first one.",
        HelpName = "FILE",
    };

    private readonly Option<string?> contours = Text("--contours", "FILE.svg", "Outlines only, for laser cutters and plotters: the whole board in one SVG.");
    private readonly Option<string> paper = new("--paper") { Description = "A4, A3, A2, A1, A0, Letter or Tabloid.", HelpName = "SIZE", DefaultValueFactory = _ => "A4" };
    private readonly Option<bool> landscape = new("--landscape") { Description = "Sheets lie wide; without it they stand, and those of a tiled board lie as fewer of them do." };
    private readonly Option<double> margin = Number("--margin-mm", "MM", "Strip along the edges of the paper that stays white; printers need about 5.", 8);
    private readonly Option<string?> board = Text("--board-mm", "WxH", "Size of the whole board; cut to sheets where it does not fit one. Without it the board fills one sheet inside the margin.");
    private readonly Option<double> overlap = Number("--overlap-mm", "MM", "How far the print of a sheet goes on below its neighbour.", 10);
    private readonly Option<string?> dotMillimetres = Text("--dot-mm", "SIZES", "Diameter of the dots; several as 0.8,1.6 (equal shares of the covered area) or 0.8:0.7,1.6:0.3.");
    private readonly Option<string?> dotPixels = Text("--dot-px", "SIZES", "Diameter of the dots in the picture instead; needs --case for the scale on the board.");
    private readonly Option<string?> caseFile = Text("--case", "FILE", "Case file whose [rig] gives the scale on the board; the footage need not be there yet.");
    private readonly Option<double> coverage = Number("--coverage", "PART", "Part of the area that dots cover.", 0.35);
    private readonly Option<double?> gap = new("--gap-mm") { Description = "Least gap between dots; a tenth of the smallest diameter where not given.", HelpName = "MM" };
    private readonly Option<string> tones = new("--tones") { Description = "dark (black on white), inverted (white on black) or two-tone (black and white on grey).", HelpName = "TONES", DefaultValueFactory = _ => "dark" };
    private readonly Option<ulong> seed = new("--seed") { Description = "Seed of the random pattern: the same seed gives the same dots.", HelpName = "N", DefaultValueFactory = _ => 1 };
    private readonly Option<bool> noFiducials = new("--no-fiducials") { Description = "Leave the coded marks out; scale and orientation are then not found by themselves." };
    private readonly Option<double?> fiducial = new("--fiducial-mm") { Description = "Side of a fiducial; where not given 16 of the largest dots, or what a small board has room for.", HelpName = "MM" };
    private readonly Option<double> inkGain = Number("--ink-gain-mm", "MM", "By how much the printer makes dots larger than drawn; they are drawn smaller by it.", 0);
    private readonly Option<double> printerDpi = Number("--printer-dpi", "DPI", "Resolution of the printer; dots below 5 of its dots are refused.", 600);
    private readonly Option<double?> cutter = new("--cutter-mm") { Description = "Smallest feature that the cutter can make, with --contours; 0.5 where not given.", HelpName = "MM" };
    private readonly Option<double?> dpi = new("--dpi") { Description = "Resolution of a PNG; 600 where not given.", HelpName = "DPI" };
    private readonly Option<string?> date = Text("--date", "YYYY-MM-DD", "Date in legend and description; today where not given. The same date gives the same bytes.");
    private readonly Option<bool> force = new("--force") { Description = "Overwrite files that are there." };

    /// <summary>Creates the options with the checks that concern one of them alone.</summary>
    public PrintOptions()
    {
        tones.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && !TonesByWord.ContainsKey(result.Tokens[0].Value))
                result.AddError($"--tones {result.Tokens[0].Value} is not known; give dark, inverted or two-tone.");
        });
    }

    /// <summary>Adds the options to the command, in the order of its help.</summary>
    public void AddTo(Command command)
    {
        Option[] all =
        [
            output, contours, paper, landscape, margin, board, overlap, dotMillimetres, dotPixels, caseFile, coverage, gap, tones, seed, noFiducials, fiducial,
            inkGain, printerDpi, cutter, dpi, date, force,
        ];
        foreach (Option option in all)
            command.Add(option);
    }

    /// <summary>What was typed.</summary>
    public PrintRequest Read(ParseResult parsed) => new()
    {
        Outputs = parsed.GetValue(output) ?? [],
        Contours = parsed.GetValue(contours),
        Paper = parsed.GetValue(paper)!,
        Landscape = parsed.GetValue(landscape),
        MarginMillimetres = parsed.GetValue(margin),
        Board = parsed.GetValue(board),
        OverlapMillimetres = parsed.GetValue(overlap),
        DotMillimetres = parsed.GetValue(dotMillimetres),
        DotPixels = parsed.GetValue(dotPixels),
        Case = parsed.GetValue(caseFile),
        Coverage = parsed.GetValue(coverage),
        GapMillimetres = parsed.GetValue(gap),
        Tones = TonesByWord[parsed.GetValue(tones)!],
        Seed = parsed.GetValue(seed),
        WithFiducials = !parsed.GetValue(noFiducials),
        FiducialMillimetres = parsed.GetValue(fiducial),
        InkGainMillimetres = parsed.GetValue(inkGain),
        PrinterDpi = parsed.GetValue(printerDpi),
        CutterMillimetres = parsed.GetValue(cutter),
        Dpi = parsed.GetValue(dpi),
        Date = parsed.GetValue(date),
        Force = parsed.GetValue(force),
    };

    private static Option<string?> Text(string name, string value, string description) => new(name) { Description = description, HelpName = value };

    private static Option<double> Number(string name, string value, string description, double standard) =>
        new(name) { Description = description, HelpName = value, DefaultValueFactory = _ => standard };
}
