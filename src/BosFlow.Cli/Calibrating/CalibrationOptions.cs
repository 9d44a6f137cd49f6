using System.CommandLine;
using System.Globalization;
using BosFlow.Camera;
using BosFlow.Cli.CommandLine;
using BosFlow.Media.Calibration;
using BosFlow.Results.Boards;

namespace BosFlow.Cli.Calibrating;

/// <summary>The options of calibrate.</summary>
internal sealed class CalibrationOptions
{
    private readonly Argument<string[]> pictures = new("PICTURES") { Description = "Pictures of the target, paths or patterns.", Arity = ArgumentArity.ZeroOrMore };
    private readonly Option<string?> video = new("--video") { Description = "A video of the target in place of pictures.", HelpName = "FILE" };
    private readonly Option<string?> checkerboard = new("--checkerboard") { Description = "The target is a checkerboard with so many inner corners, as in 9x6.", HelpName = "CxR" };
    private readonly Option<double?> square = new("--square-mm") { Description = "Side of a square of the checkerboard.", HelpName = "MM" };
    private readonly Option<string?> circles = new("--circles") { Description = "The target is a square grid of so many dark discs, as in 7x5.", HelpName = "CxR" };
    private readonly Option<double?> spacing = new("--spacing-mm") { Description = "Distance of neighbouring discs, centre to centre.", HelpName = "MM" };
    private readonly Option<string?> board = new("--board") { Description = "The target is a background from bosflow print: its description.", HelpName = "FILE.json" };
    private readonly Option<string> model = new("--model") { Description = "Family of the lens: pinhole, or fisheye for more than about 100 degrees across.", DefaultValueFactory = _ => "pinhole" };
    private readonly Option<int> frames = new("--most-frames") { Description = "Most pictures or frames that are looked at, evenly spread.", DefaultValueFactory = _ => 40, HelpName = "N" };
    private readonly Option<double?> pitch = new("--pixel-pitch-um") { Description = "Pixel pitch of the recorded pictures, to state the focal length in mm.", HelpName = "UM" };
    private readonly Option<string> output = new("--output", "-o") { Description = "The lens file; a picture of what was seen where is written beside it.", DefaultValueFactory = _ => "lens.toml", HelpName = "FILE.toml" };
    private readonly Option<bool> force = new("--force") { Description = "Replace files that exist." };

    /// <summary>Adds the options to the command.</summary>
    public void AddTo(Command command)
    {
        MisspeltOptions.RefuseAmong(pictures);
        command.Add(pictures);
        foreach (Option option in new Option[] { checkerboard, square, circles, spacing, board, video, frames, model, pitch, output, force })
            command.Add(option);
    }

    /// <summary>What was typed, checked.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="environment">Where relative paths start.</param>
    /// <exception cref="ConfigurationException">The options do not fit; one sentence a problem.</exception>
    /// <exception cref="InputDataException">The description of the board cannot be used.</exception>
    public CalibrationRequest Read(ParseResult parsed, CommandEnvironment environment)
    {
        List<string> problems = [];
        string[] files = parsed.GetValue(pictures) ?? [];
        string? clip = parsed.GetValue(video);
        if (files.Length == 0 && clip is null)
            problems.Add("No picture is given: name pictures of the target, as in calibration/*.png, or --video FILE.");
        if (files.Length > 0 && clip is not null)
            problems.Add("Pictures and --video are both given: remove one.");
        string typedModel = parsed.GetValue(model)!;
        if (typedModel is not ("pinhole" or "fisheye"))
            problems.Add($"--model {typedModel} is not known; give pinhole or fisheye.");
        int most = parsed.GetValue(frames);
        if (most is < 3 or > 200)
            problems.Add(FormattableString.Invariant($"--most-frames {most} is not possible; give 3 to 200."));
        double? pixelPitch = parsed.GetValue(pitch);
        if (pixelPitch is { } value && !(value is > 0 and <= 100))
            problems.Add(FormattableString.Invariant($"--pixel-pitch-um {value} is not possible; give more than 0 and at most 100 um."));
        string path = environment.Absolute(parsed.GetValue(output)!);
        CheckOutput(path, parsed.GetValue(force), problems);
        Func<CalibrationTarget>? target = Target(parsed, environment, problems);
        if (problems.Count > 0 || target is null)
            throw new ConfigurationException(problems);
        return new CalibrationRequest
        {
            Target = target(),
            Pictures = [.. files.Select(environment.Absolute)],
            Video = clip is null ? null : environment.Absolute(clip),
            MostFrames = most,
            Kind = typedModel == "fisheye" ? LensKind.Fisheye : LensKind.Pinhole,
            PixelPitchMetres = pixelPitch * 1e-6,
            Output = path,
        };
    }

    private static void CheckOutput(string path, bool replace, List<string> problems)
    {
        if (!path.EndsWith(".toml", StringComparison.OrdinalIgnoreCase))
            problems.Add($"--output {path} must end with .toml; a picture of the same name and .png is written beside it.");
        else if (!Directory.Exists(Path.GetDirectoryName(path)))
            problems.Add($"There is no folder {Path.GetDirectoryName(path)}; make it first, or give another --output.");
        else if (!replace && new[] { path, Path.ChangeExtension(path, ".png") }.FirstOrDefault(File.Exists) is { } there)
            problems.Add($"{there} exists already and nothing is overwritten; give another --output, or --force to replace.");
    }

    private Func<CalibrationTarget>? Target(ParseResult parsed, CommandEnvironment environment, List<string> problems)
    {
        (string? squares, string? discs, string? printed) = (parsed.GetValue(checkerboard), parsed.GetValue(circles), parsed.GetValue(board));
        if (new[] { squares, discs, printed }.Count(given => given is not null) != 1)
        {
            problems.Add("It is not said what the pictures show: give --checkerboard 9x6 --square-mm 20, --circles 7x5 --spacing-mm 15, or --board board.json.");
            return null;
        }

        if (printed is not null)
            return () => new CalibrationTarget.PrintedBoard(BoardFile.ReadWithoutDots(environment.Absolute(printed)).Board, Path.GetFileName(printed));
        (string name, string typed, string lengthName, double? length) = squares is not null
            ? ("--checkerboard", squares, "--square-mm", parsed.GetValue(square))
            : ("--circles", discs!, "--spacing-mm", parsed.GetValue(spacing));
        if (!TryCounts(typed, out int columns, out int rows))
            problems.Add($"{name} {typed} cannot be read; give columns and rows from 3 to 60, as in 9x6{(squares is null ? string.Empty : ", counting the inner corners where four squares meet")}.");
        if (length is not { } metres || !(metres is > 0 and <= 1e4))
        {
            problems.Add($"{name} needs {lengthName}, a length of more than 0 and at most 10000 mm: measure it over many squares with a steel rule.");
            return null;
        }

        return squares is not null
            ? () => new CalibrationTarget.Checkerboard(columns, rows, metres / 1e3)
            : () => new CalibrationTarget.Circles(columns, rows, metres / 1e3);
    }

    private static bool TryCounts(string typed, out int columns, out int rows)
    {
        columns = rows = 0;
        string[] sides = typed.Split('x', 'X');
        return sides.Length == 2
            && int.TryParse(sides[0], NumberStyles.None, CultureInfo.InvariantCulture, out columns) && columns is >= 3 and <= 60
            && int.TryParse(sides[1], NumberStyles.None, CultureInfo.InvariantCulture, out rows) && rows is >= 3 and <= 60;
    }
}
