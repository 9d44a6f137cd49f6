namespace BosFlow.Speckle.Boards;

/// <summary>Where pattern, legend, rulers and fiducials of a board lie, before any dot is thrown.</summary>
/// <remarks>
/// A strip at the left carries the vertical ruler, a strip below carries the horizontal ruler and under it the legend. The strips shrink with boards
/// below 80 mm and are left out below 40 mm, where a ruler would be too short to tell anything.
/// </remarks>
internal sealed record BoardLayout
{
    private const double LeftStrip = 0.012;
    private const double BottomStrip = 0.019;
    private const double FullStripsFrom = 0.080;
    private const double NoStripsBelow = 0.040;
    private const double RulerStep = 0.010;
    private const double LongestUseful = 0.200;
    private const double LeastRuler = 0.020;

    // Numbers are centred on the marks: the last one reaches beyond the ruler's end.
    private const double RoomForNumbers = 0.005;

    public required BoardRectangle Pattern { get; init; }

    public required BoardRectangle Legend { get; init; }

    public required IReadOnlyList<BoardRuler> Rulers { get; init; }

    public required IReadOnlyList<Fiducial> Fiducials { get; init; }

    public required double QuietZone { get; init; }

    /// <summary>Pattern's area without fiducials and their white zones, m2.</summary>
    public double FreeArea => Pattern.Area - (Fiducials.Count * ZoneSide * ZoneSide);

    /// <summary>Side of the square around a fiducial that no dot reaches into, m.</summary>
    public double ZoneSide => Fiducials.Count == 0 ? 0 : Fiducials[0].Side + (2 * QuietZone);

    /// <summary>How much of a strip's full width a board has, 0 to 1.</summary>
    public static double StripShare(double shorterSide) =>
        shorterSide < NoStripsBelow ? 0 : Math.Min(1, shorterSide / FullStripsFrom);

    public static BoardRectangle PatternOf(BoardSettings settings)
    {
        double share = StripShare(Math.Min(settings.WidthMetres, settings.HeightMetres));
        double left = Tenths(share * LeftStrip);
        double bottom = Tenths(share * BottomStrip);
        return new BoardRectangle(left, 0, settings.WidthMetres - left, settings.HeightMetres - bottom);
    }

    public static BoardLayout Of(BoardSettings settings)
    {
        BoardRectangle pattern = PatternOf(settings);
        double strip = settings.HeightMetres - pattern.Bottom;
        // Upper half of the strip: ruler and its numbers; lower half: legend.
        double legendTop = settings.HeightMetres - Tenths(strip / 2);
        double side = settings.FiducialMetres;
        return new BoardLayout
        {
            Pattern = pattern,
            Legend = strip <= 0
                ? new BoardRectangle(0, settings.HeightMetres, 0, 0)
                : new BoardRectangle(pattern.Left, legendTop, pattern.Width, settings.HeightMetres - legendTop),
            Rulers = strip <= 0 ? [] : [.. RulersOf(settings, pattern, strip)],
            Fiducials = settings.WithFiducials ? FiducialRing.Of(pattern, side, settings.Sizes[^1].DiameterMetres) : [],
            QuietZone = settings.WithFiducials ? FiducialRing.QuietZone(side) : 0,
        };
    }

    /// <summary>Longest ruler on a sheet at a corner of the board, m.</summary>
    public static double LongestRulerOn(BoardRectangle net) =>
        Math.Max(0, LengthOf(Math.Min(net.Width, net.Height) - LeftStrip - RoomForNumbers, LongestUseful));

    /// <summary>A length in whole steps of 0.1 mm.</summary>
    private static double Tenths(double metres) => Math.Round(metres * 1e4) / 1e4;

    private static IEnumerable<BoardRuler> RulersOf(BoardSettings settings, BoardRectangle pattern, double strip)
    {
        double beside = Tenths(strip / 10);
        double across = LengthOf(pattern.Width - RoomForNumbers, settings.LongestRulerMetres);
        if (across >= LeastRuler)
            yield return new BoardRuler(pattern.Left, pattern.Bottom + beside, across, IsVertical: false);
        double down = LengthOf(pattern.Height - RoomForNumbers, settings.LongestRulerMetres);
        if (down >= LeastRuler)
            yield return new BoardRuler(pattern.Left - beside, pattern.Top + beside, down, IsVertical: true);
    }

    // A millionth more lets 0.2 m be twenty steps.
    private static double LengthOf(double room, double longest) =>
        Math.Floor((Math.Min(room, longest) / RulerStep) + 1e-6) / 100;
}
