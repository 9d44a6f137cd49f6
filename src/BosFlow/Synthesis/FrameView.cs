using BosFlow.Camera;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>How the camera sees the view at rest while it takes one frame, row after row.</summary>
/// <param name="motion">Motion of the camera.</param>
/// <param name="frame">Number of the frame.</param>
/// <param name="clock">When the sensor's rows are exposed.</param>
/// <param name="cut">By how much the picture is shifted against the sensor, px to the right and down.</param>
/// <param name="lens">The lens; null = an ideal one.</param>
internal sealed class FrameView(CameraMotion motion, int frame, RowClock clock, (double X, double Y) cut, LensModel? lens = null)
{
    /// <summary>Fastest motion along y that can be rendered, px a row: at 1 a dot would run along with the readout and be seen in every row.</summary>
    public const double LargestSlope = 0.5;

    private const int MostSteps = 30;
    private const double Tolerance = 1e-10;

    /// <summary>Middle of the exposure of what the picture shows in a row, s since the first frame.</summary>
    public double SecondsAt(double row) => clock.At(row - cut.Y);

    /// <summary>How the view lies in the picture when a row is exposed.</summary>
    public CameraPose PoseAt(double row) => PoseAt(row, 0);

    /// <summary>How the view lies where and when this frame shows a place of the ideal picture.</summary>
    public CameraPose PoseOfIdeal(double x, double y) => PoseAt(lens is null ? y : lens.ToPicture(x, y).Y);

    /// <summary>The point of the view at rest that this frame shows at a place, px: exact, since the place tells the time. NaN where the lens shows nothing.</summary>
    public (double X, double Y) ToRest(double x, double y)
    {
        (double idealX, double idealY) = lens?.ToIdeal(x, y) ?? (x, y);
        return BackToRest(PoseAt(y), idealX, idealY);
    }

    /// <summary>The point of the view at rest that an ideal lens would show at a place of this frame, px.</summary>
    public (double X, double Y) IdealToRest(double x, double y) => BackToRest(PoseOfIdeal(x, y), x, y);

    /// <summary>Where the frame shows points of the view at rest, some time before or after the middle of each row's exposure.</summary>
    /// <param name="dots">Dots of the view at rest.</param>
    /// <param name="offsetSeconds">That time, s.</param>
    /// <param name="cancellationToken">Stops between two dots.</param>
    public MovingDot[] See(Dot[] dots, double offsetSeconds, CancellationToken cancellationToken)
    {
        var seen = new MovingDot[dots.Length];
        Parallel.For(0, dots.Length, new ParallelOptions { CancellationToken = cancellationToken }, i => seen[i] = See(dots[i], offsetSeconds));
        return lens is null ? seen : Array.FindAll(seen, dot => double.IsFinite(dot.Centre.X + dot.Centre.Y + dot.SlopeX + dot.BendX));
    }

    /// <summary>Where a row sees a point of the view at rest; NaN where the lens shows nothing.</summary>
    public (double X, double Y) SeenFrom(double row, double x, double y, double offsetSeconds)
    {
        (double idealX, double idealY) = SeenThroughIdeal(row, x, y, offsetSeconds);
        return lens?.ToPicture(idealX, idealY) ?? (idealX, idealY);
    }

    /// <summary>Where a row would see a point of the view at rest through an ideal lens.</summary>
    public (double X, double Y) SeenThroughIdeal(double row, double x, double y, double offsetSeconds)
    {
        (double seenX, double seenY) = PoseAt(row, offsetSeconds).Move(x - motion.CentreX, y - motion.CentreY);
        return (seenX + motion.CentreX, seenY + motion.CentreY);
    }

    private (double X, double Y) BackToRest(CameraPose pose, double x, double y)
    {
        (double restX, double restY) = pose.MoveBack(x - motion.CentreX, y - motion.CentreY);
        return (restX + motion.CentreX, restY + motion.CentreY);
    }

    private CameraPose PoseAt(double row, double offsetSeconds)
    {
        CameraPose pose = motion.At(frame, SecondsAt(row) + offsetSeconds);
        return pose with { ShiftX = pose.ShiftX + cut.X, ShiftY = pose.ShiftY + cut.Y };
    }

    /// <summary>
    /// Solves row = y(row): the row that sees the dot on itself. Secant steps; they converge because the dot moves less than <see cref="LargestSlope"/> px from row to row.
    /// </summary>
    private MovingDot See(in Dot dot, double offset)
    {
        double before = dot.Y;
        (double x, double y) = SeenFrom(before, dot.X, dot.Y, offset);
        if (clock.ReadoutSeconds == 0)
            return new MovingDot(dot with { X = x, Y = y }, 0, 0, 0, 0);
        double missBefore = y - before;
        double row = y;
        for (int step = 0; step < MostSteps; step++)
        {
            (x, y) = SeenFrom(row, dot.X, dot.Y, offset);
            double miss = y - row;
            if (Math.Abs(miss) < Tolerance)
                break;
            double next = row + (miss * (row - before) / (missBefore - miss));
            (before, missBefore, row) = (row, miss, next);
        }

        (double aboveX, double aboveY) = SeenFrom(row - 1, dot.X, dot.Y, offset);
        (double belowX, double belowY) = SeenFrom(row + 1, dot.X, dot.Y, offset);
        return new MovingDot(
            dot with { X = x, Y = y }, (belowX - aboveX) / 2, (belowY - aboveY) / 2, ((belowX + aboveX) / 2) - x, ((belowY + aboveY) / 2) - y);
    }
}
