using BosFlow.Camera;
using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>
/// How a picture that is read row by row may move: each row is shifted, stretched and turned as the camera stood when it was read,
/// u = a(y) + k(y) X and v = b(y) + r(y) X with X the column about the middle in half widths, a, b, k, r smooth functions of the row.
/// </summary>
/// <remarks>
/// A similarity of the whole frame is among them. What lies within one row time, some microseconds, is neglected.
/// Behind a lens that bends, places and displacements are those of the ideal picture, while a row of the sensor, read at one time, is a curve there: y is the sensor's row at which the
/// place is seen, and with Y how far the place lies below the row of that number, in half widths, u = a(y) + k(y) X - r(y) Y and v = b(y) + r(y) X + k(y) Y (derived here).
/// </remarks>
public sealed class RowModel
{
    // A uniform cover of the width has 0.577, two strips at the sides more, one strip at one side less than 0.3: judgement.
    private const double LeastSpread = 0.4;
    private const double LeastShareOfBands = 0.8;

    private RowModel(RowBasis shifts, int width, bool turnsByRow, bool anyTurn, LensModel? lens)
    {
        Lens = lens;
        Shifts = shifts;
        Width = width;
        TurnsByRow = turnsByRow;
        HasTurn = anyTurn;
    }

    /// <summary>Functions of the shifts a and b.</summary>
    public RowBasis Shifts { get; }

    /// <summary>Width of the picture, px.</summary>
    public int Width { get; }

    /// <summary>The lens that shows the ideal picture to the sensor's rows; null = an ideal one, whose rows are the sensor's.</summary>
    public LensModel? Lens { get; }

    /// <summary>Whether stretch and turn are functions of the row too, or one number for the whole frame.</summary>
    public bool TurnsByRow { get; }

    /// <summary>Whether rows are stretched and turned at all.</summary>
    public bool HasTurn { get; }

    /// <summary>Number of coefficients of stretch or turn.</summary>
    public int TurnCount => !HasTurn ? 0 : TurnsByRow ? Shifts.Count : 1;

    /// <summary>Unknowns of one component.</summary>
    public int Unknowns => Shifts.Count + TurnCount;

    /// <summary>Chooses what the undisturbed region can tell.</summary>
    /// <param name="undisturbed">Pixels without flow.</param>
    /// <param name="settings">Motion model, readout and highest vibration.</param>
    /// <returns>The model; null where rows are all read at once.</returns>
    public static RowModel? Of(PixelMask undisturbed, RegistrationSettings settings)
    {
        ArgumentNullException.ThrowIfNull(undisturbed);
        ArgumentNullException.ThrowIfNull(settings);
        if (settings.RowIntervals == 0 || settings.Motion == MotionModel.None)
            return null;
        var shifts = new RowBasis(undisturbed.Height, settings.RowIntervals);
        bool anyTurn = settings.Motion != MotionModel.Shift;
        return new RowModel(shifts, undisturbed.Width, anyTurn && CoversBothSides(undisturbed, shifts), anyTurn, settings.Lens);
    }

    /// <summary>A model that was chosen before.</summary>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="intervals">Intervals between knots.</param>
    /// <param name="turnCount">Number of coefficients of stretch or turn: 0, 1 or as many as the shift has.</param>
    public static RowModel Known(int width, int height, int intervals, int turnCount)
    {
        var shifts = new RowBasis(height, intervals);
        if (turnCount != 0 && turnCount != 1 && turnCount != shifts.Count)
            throw new ArgumentOutOfRangeException(nameof(turnCount), turnCount, $"Must be 0, 1 or {shifts.Count}.");
        return new RowModel(shifts, width, turnCount == shifts.Count, turnCount > 0, null);
    }

    /// <summary>The same freedom with fewer knots.</summary>
    /// <param name="mostIntervals">Most intervals, at least 1.</param>
    public RowModel Coarser(int mostIntervals) => mostIntervals >= Shifts.Intervals
        ? this
        : new RowModel(Shifts with { Intervals = Math.Max(1, mostIntervals) }, Width, TurnsByRow, HasTurn, Lens);

    /// <summary>Column about the middle of the picture in half widths.</summary>
    /// <param name="x">Column, px.</param>
    public double Across(double x) => ((2 * x) - (Width - 1)) / Width;

    /// <summary>The row of the sensor that sees a place; NaN where the lens shows nothing.</summary>
    /// <param name="x">Column, px of the ideal picture.</param>
    /// <param name="y">Row, px of the ideal picture.</param>
    public double SensorRow(double x, double y) => Lens?.ToPicture(x, y).Y ?? y;

    /// <summary>How far a place lies below the row of the ideal picture that has the number of its sensor row, in half widths.</summary>
    /// <param name="y">Row, px of the ideal picture.</param>
    /// <param name="sensorRow">The row of the sensor that sees it.</param>
    internal double Below(double y, double sensorRow) => 2 * (y - sensorRow) / Width;

    /// <summary>The model's functions at a place: one row of the design matrix.</summary>
    /// <param name="x">Column, px of the ideal picture.</param>
    /// <param name="y">Row, px of the ideal picture.</param>
    /// <param name="row"><see cref="Unknowns"/> values, overwritten.</param>
    /// <remarks>What <see cref="Below"/> adds is left out: it couples u and v, and is small.</remarks>
    internal void Design(double x, double y, Span<double> row)
    {
        row.Clear();
        Span<double> weights = stackalloc double[RowBasis.Support];
        int first = Shifts.At(SensorRow(x, y), weights);
        weights.CopyTo(row[first..]);
        if (!HasTurn)
            return;
        double across = Across(x);
        if (!TurnsByRow)
        {
            row[Shifts.Count] = across;
            return;
        }

        for (int i = 0; i < RowBasis.Support; i++)
            row[Shifts.Count + first + i] = across * weights[i];
    }

    private static bool CoversBothSides(PixelMask undisturbed, RowBasis shifts)
    {
        int covered = 0;
        int seen = 0;
        for (int band = 0; band < shifts.Intervals; band++)
        {
            if (Spread(undisturbed, (int)(band * shifts.Spacing), (int)Math.Ceiling((band + 1) * shifts.Spacing)) is not double spread)
                continue;
            seen++;
            covered += spread >= LeastSpread ? 1 : 0;
        }

        return seen > 0 && covered >= LeastShareOfBands * seen;
    }

    // Standard deviation of the columns of the undisturbed pixels, in half widths.
    private static double? Spread(PixelMask mask, int top, int bottom)
    {
        double count = 0, sum = 0, squares = 0;
        for (int y = top; y < Math.Min(bottom, mask.Height); y++)
        {
            for (int x = 0; x < mask.Width; x++)
            {
                if (!mask[x, y])
                    continue;
                double across = (2.0 * x / mask.Width) - 1;
                count++;
                sum += across;
                squares += across * across;
            }
        }

        return count == 0 ? null : Math.Sqrt(Math.Max(0, (squares / count) - (sum / count * (sum / count))));
    }
}
