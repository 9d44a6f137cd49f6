using System.Globalization;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;
using BosFlow.Optics;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>Checks what print is asked for, all of it before any work.</summary>
internal static class PrintPreparation
{
    /// <summary>Resolution of a PNG where none is asked for, dots per inch.</summary>
    public const double StandardDpi = 600;

    private const double MillimetresPerMetre = 1e3;

    /// <summary>Makes the job.</summary>
    /// <param name="request">What was typed.</param>
    /// <param name="environment">Folder of relative paths, and the clock for today's date: the only use of a clock in print.</param>
    /// <exception cref="ConfigurationException">It cannot be done; holds every problem.</exception>
    /// <exception cref="InputDataException">The case file cannot be read.</exception>
    public static PrintJob Prepare(PrintRequest request, CommandEnvironment environment)
    {
        List<string> problems = [];
        List<string> warnings = [];
        CheckOutputs(request, problems);
        DateOnly date = Date(request, environment, problems);
        (IReadOnlyList<DotSize> sizes, double? metresPerPixel) = Sizes(request, environment, problems);
        PaperSize? paper = Paper(request, problems);
        (double Width, double Height)? board = paper is null ? null : Board(request, paper, problems);
        ThrowIfAny(problems);

        SheetPlan plan = SheetPlanner.Plan(
            board!.Value.Width,
            board.Value.Height,
            paper!,
            request.Landscape ? true : request.Board is null ? false : null,
            request.MarginMillimetres / MillimetresPerMetre,
            request.OverlapMillimetres / MillimetresPerMetre);
        BoardSettings settings = Settings(request, board.Value.Width, board.Value.Height, sizes, plan);
        problems.AddRange(settings.Problems());
        ThrowIfAny(problems);
        PrintLimits.CheckPrinter(request, settings, problems);
        PrintLimits.CheckCutter(request, settings, problems, warnings);
        PrintLimits.CheckPicture(request, settings, plan.Paper, problems, warnings);
        IReadOnlyList<PrintFile> files = PrintFiles.Of(
            [.. request.Outputs.Select(environment.Absolute)],
            request.Contours is null ? null : environment.Absolute(request.Contours),
            plan);
        problems.AddRange(PrintFiles.Problems(files, request.Force));
        ThrowIfAny(problems);
        return new PrintJob
        {
            Settings = settings,
            Plan = plan,
            Date = date,
            Dpi = request.Dpi ?? StandardDpi,
            Files = files,
            Warnings = warnings,
            MetresPerPixel = metresPerPixel,
        };
    }

    private static void CheckOutputs(PrintRequest request, List<string> problems)
    {
        if (request.Outputs.Count == 0 && request.Contours is null)
            problems.Add("bosflow print needs --output FILE, such as --output board.pdf (or .svg, .png), or --contours FILE.svg.");
        foreach (string output in request.Outputs.Where(output => PrintFiles.KindOf(output) is null))
            problems.Add($"--output {output} has no ending that is known; give .pdf, .svg or .png.");
        if (request.Contours is { } contours && PrintFiles.KindOf(contours) != PrintFileKind.Svg)
            problems.Add($"--contours {contours} is no SVG; give a name that ends in .svg.");
    }

    private static DateOnly Date(PrintRequest request, CommandEnvironment environment, List<string> problems)
    {
        if (request.Date is null)
            return DateOnly.FromDateTime(environment.Clock.GetLocalNow().DateTime);
        if (!DateOnly.TryParseExact(request.Date, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
            problems.Add($"--date {request.Date} is no date; give year, month and day, such as 2026-11-25.");
        return date;
    }

    private static (IReadOnlyList<DotSize> Sizes, double? MetresPerPixel) Sizes(PrintRequest request, CommandEnvironment environment, List<string> problems)
    {
        const string forms = "give one size, several as 0.8,1.6, or with their shares as 0.8:0.7,1.6:0.3";
        if (request.DotMillimetres is not null == request.DotPixels is not null)
        {
            problems.Add(request.DotPixels is null
                ? "The size of the dots is missing; give --dot-mm, such as --dot-mm 1.0, or --dot-px with --case."
                : "--dot-mm and --dot-px exclude each other; give one of them.");
            return ([], null);
        }

        if (request.DotMillimetres is { } millimetres)
        {
            if (request.Case is not null)
                problems.Add("--case is for --dot-px only; give the dots in px, or leave it out.");
            if (!DotSizeSyntax.TryRead(millimetres, 1 / MillimetresPerMetre, out IReadOnlyList<DotSize> sizes))
                problems.Add($"--dot-mm {millimetres} cannot be read; {forms}.");
            return (sizes, null);
        }

        if (request.Case is null)
        {
            problems.Add("--dot-px needs --case FILE: the [rig] in it says how many mm of the board a pixel sees.");
            return ([], null);
        }

        double scale = ScaleOf(request.Case, environment);
        if (!DotSizeSyntax.TryRead(request.DotPixels!, scale, out IReadOnlyList<DotSize> inPixels))
            problems.Add($"--dot-px {request.DotPixels} cannot be read; {forms}.");
        return (inPixels, scale);
    }

    private static double ScaleOf(string typed, CommandEnvironment environment)
    {
        RigGeometry rig = RigReader.Read(environment.Absolute(typed))
            ?? throw new InputDataException($"{typed} has no [rig], so the scale on the board is not known; write the distances and the camera there, or give --dot-mm.");
        return OpticalScaling.BackgroundMetresPerPixel(rig);
    }

    private static PaperSize? Paper(PrintRequest request, List<string> problems)
    {
        if (PaperSize.Find(request.Paper) is { } paper)
            return paper;
        string[] names = [.. PaperSize.Known.Select(size => size.Name)];
        string hint = NearestWord.Find(request.Paper, names) is { } near ? $" Did you mean {near}?" : string.Empty;
        problems.Add($"--paper {request.Paper} is not known; give {string.Join(", ", names[..^1])} or {names[^1]}.{hint}");
        return null;
    }

    private static (double Width, double Height)? Board(PrintRequest request, PaperSize paper, List<string> problems)
    {
        if (request.Board is { } typed)
        {
            if (BoardSizeSyntax.TryRead(typed, out double width, out double height))
                return (width, height);
            problems.Add($"--board-mm {typed} cannot be read; give width x height in mm without spaces, such as 1200x800.");
            return null;
        }

        (double Width, double Height) room = SheetPlanner.Printable(request.Landscape ? paper.Turned : paper, request.MarginMillimetres / MillimetresPerMetre);
        if (request.MarginMillimetres >= 0 && room is { Width: > 0, Height: > 0 })
            return room;
        problems.Add(FormattableString.Invariant($"--margin-mm {request.MarginMillimetres} is not possible on {paper.Name}; give 0 or more, and less than half of its shorter side."));
        return null;
    }

    private static BoardSettings Settings(PrintRequest request, double width, double height, IReadOnlyList<DotSize> sizes, SheetPlan plan)
    {
        var settings = new BoardSettings
        {
            WidthMetres = width,
            HeightMetres = height,
            Sizes = sizes,
            Coverage = request.Coverage,
            LeastGapMetres = request.GapMillimetres / MillimetresPerMetre,
            Tones = request.Tones,
            Seed = request.Seed,
            WithFiducials = request.WithFiducials,
            FiducialSideMetres = request.FiducialMillimetres / MillimetresPerMetre,
            InkGainMetres = request.InkGainMillimetres / MillimetresPerMetre,
        };
        // A ruler that is cut in two measures the glueing, not the printer.
        return plan.Sheets.Count == 1 ? settings : settings with { LongestRulerMetres = plan.LongestRulerMetres };
    }

    private static void ThrowIfAny(List<string> problems)
    {
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
    }
}
