using System.Globalization;
using System.Text.Json;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Turns the JSON of a description into its values and checks that they fit each other.</summary>
internal static class BoardFileReader
{
    private const double LongestMillimetres = 100_000;

    // What a length may differ by rounding, m.
    private const double Slack = 1e-7;

    public static (BoardDocument Document, DotsTableEntry Dots) Read(BoardFilePlace top)
    {
        if (top.Value.ValueKind != JsonValueKind.Object || top.Of("format").Value is not { ValueKind: JsonValueKind.String } || top.Text("format", 100) != BoardFile.Format)
            throw new InputDataException($"{top.File} is not a board description; give the .json file that bosflow print wrote.");
        int version = top.Integer("version", 1, int.MaxValue);
        if (version != BoardFile.Version)
            throw new InputDataException(FormattableString.Invariant($"{top.File} is a board description of version {version}; this program reads version {BoardFile.Version}: take the newer program."));
        BoardSettings settings = Settings(top);
        if (settings.Problems() is { Count: > 0 } problems)
            throw new InputDataException($"{top.File}: {problems[0]}");
        Board board = BoardOf(top, settings);
        DotsTableEntry dots = Dots(top.Object("dots"));
        var document = new BoardDocument
        {
            Board = board,
            Sheets = top.ObjectOrNull("sheets") is { } sheets ? BoardFileSheets.Read(sheets, settings) : null,
            Date = Date(top),
            ProgramVersion = top.Text("program_version", 100),
            DotCount = dots.Count,
        };
        return (document, dots);
    }

    /// <summary>A rectangle that must lie within a width and a height, m.</summary>
    public static BoardRectangle Rectangle(BoardFilePlace place, double width, double height)
    {
        var rectangle = new BoardRectangle(
            place.Metres("left_mm", 0, LongestMillimetres),
            place.Metres("top_mm", 0, LongestMillimetres),
            place.Metres("width_mm", 0, LongestMillimetres),
            place.Metres("height_mm", 0, LongestMillimetres));
        return rectangle.Right <= width + Slack && rectangle.Bottom <= height + Slack ? rectangle : throw place.Fault("reaches beyond the board");
    }

    private static BoardSettings Settings(BoardFilePlace top) => new()
    {
        WidthMetres = top.Metres("board_width_mm", 0, LongestMillimetres),
        HeightMetres = top.Metres("board_height_mm", 0, LongestMillimetres),
        Sizes = [.. top.Items("dot_sizes", 100).Select(size => new DotSize(size.Metres("diameter_mm", 0, LongestMillimetres), size.Number("share", 0, 1)))],
        Coverage = top.Number("coverage", 0, 1),
        LeastGapMetres = top.MetresOrNull("least_gap_mm", 0, LongestMillimetres),
        Tones = Tones(top),
        Seed = top.Seed("seed"),
        WithFiducials = top.Boolean("with_fiducials"),
        FiducialSideMetres = top.MetresOrNull("fiducial_side_mm", 0, LongestMillimetres),
        InkGainMetres = top.Metres("ink_gain_mm", -LongestMillimetres, LongestMillimetres),
        LongestRulerMetres = top.Metres("longest_ruler_mm", 0, LongestMillimetres),
    };

    private static Board BoardOf(BoardFilePlace top, BoardSettings settings)
    {
        BoardRectangle pattern = Rectangle(top.Object("pattern"), settings.WidthMetres, settings.HeightMetres);
        if (!(pattern.Area > 0))
            throw top.Of("pattern").Fault("has no area");
        if (top.Text("fiducial_family", 100) is { } family && family != FiducialCode.Family)
            throw top.Of("fiducial_family").Fault($"is {family}, but only {FiducialCode.Family} is known");
        double quietZone = top.Metres("fiducial_quiet_zone_mm", 0, LongestMillimetres);
        List<Fiducial> fiducials = [.. top.Items("fiducials", FiducialCode.Count).Select(place => FiducialOf(place, pattern, quietZone))];
        if (fiducials.Select(fiducial => fiducial.Id).Distinct().Count() != fiducials.Count)
            throw top.Of("fiducials").Fault("names an identity twice");
        if (fiducials.Count > 0 != settings.WithFiducials || fiducials.Any(fiducial => fiducial.Side != fiducials[0].Side))
            throw top.Of("fiducials").Fault("does not fit with_fiducials, or its sides differ");
        double zone = fiducials.Count == 0 ? 0 : fiducials[0].Side + (2 * quietZone);
        if (fiducials.Count * zone * zone >= pattern.Area)
            throw top.Of("fiducials").Fault("leaves no room for dots");
        return new Board
        {
            Settings = settings,
            Pattern = pattern,
            Legend = Rectangle(top.Object("legend"), settings.WidthMetres, settings.HeightMetres),
            Fiducials = fiducials,
            FiducialQuietZone = quietZone,
            Rulers = [.. top.Items("rulers", 4).Select(place => RulerOf(place, settings))],
            Dots = [],
            CoverageReached = top.Number("coverage_reached", 0, 1),
        };
    }

    private static Fiducial FiducialOf(BoardFilePlace place, BoardRectangle pattern, double quietZone)
    {
        var fiducial = new Fiducial(
            place.Integer("id", 0, FiducialCode.Count - 1),
            place.Metres("x_mm", 0, LongestMillimetres),
            place.Metres("y_mm", 0, LongestMillimetres),
            place.Metres("side_mm", 0, LongestMillimetres));
        double half = (fiducial.Side / 2) + quietZone - Slack;
        bool isInside = fiducial.Side > 0 && fiducial.X - half >= pattern.Left && fiducial.X + half <= pattern.Right && fiducial.Y - half >= pattern.Top && fiducial.Y + half <= pattern.Bottom;
        return isInside ? fiducial : throw place.Fault("reaches with its white zone beyond the pattern, or has no side");
    }

    private static BoardRuler RulerOf(BoardFilePlace place, BoardSettings settings)
    {
        string direction = place.Text("direction", 20);
        if (direction is not ("right" or "down"))
            throw place.Of("direction").Fault("must be right or down");
        var ruler = new BoardRuler(
            place.Metres("x_mm", 0, LongestMillimetres), place.Metres("y_mm", 0, LongestMillimetres), place.Metres("length_mm", 0, LongestMillimetres), direction == "down");
        bool isInside = ruler.Length > 0
            && ruler.X + (ruler.IsVertical ? 0 : ruler.Length) <= settings.WidthMetres + Slack
            && ruler.Y + (ruler.IsVertical ? ruler.Length : 0) <= settings.HeightMetres + Slack;
        return isInside ? ruler : throw place.Fault("reaches beyond the board, or has no length");
    }

    private static DotsTableEntry Dots(BoardFilePlace place)
    {
        string file = place.Text("file", 200);
        // Both separators, on every system: a description comes from anywhere and must not lead out of its folder.
        if (file.AsSpan().ContainsAny('/', '\\', ':') || file is "." or ".." || !file.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
            throw place.Of("file").Fault("must be the bare name of a .csv file in the same folder");
        string hash = place.Text("sha256", 64);
        if (hash.Length != 64 || !hash.All(char.IsAsciiHexDigitLower))
            throw place.Of("sha256").Fault("must be 64 hexadecimal digits in small letters");
        return new DotsTableEntry(file, hash, place.Integer("count", 0, BoardSettings.MostDots));
    }

    private static BoardTones Tones(BoardFilePlace top)
    {
        string word = top.Text("tones", 20);
        foreach ((BoardTones tones, string known) in BoardFileWriter.ToneWords)
        {
            if (word == known)
                return tones;
        }

        throw top.Of("tones").Fault("must be dark, inverted or two-tone");
    }

    private static DateOnly Date(BoardFilePlace top) =>
        DateOnly.TryParseExact(top.Text("date", 20), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date)
            ? date
            : throw top.Of("date").Fault("must be a date like 2026-11-25");
}
