namespace BosFlow.Registration;

/// <summary>How rows of several frames lie against the same rows of a reference frame: what the readout time is found from.</summary>
/// <remarks>Rotation and scale about the middle of the picture are taken out, so that the shift of the view at the row's time is left.</remarks>
internal sealed class RowShakeSamples
{
    /// <summary>Number of rows of the reference, each with an unknown shift: more than a motion of three periods a frame needs, so that a false readout shows within a frame too.</summary>
    public const int RowCount = 8;

    private readonly List<double> frameTimes = [];
    private readonly List<double> fractions = [];
    private readonly List<int> rows = [];
    private readonly List<double> u = [];
    private readonly List<double> v = [];

    /// <summary>Number of samples.</summary>
    public int Count => u.Count;

    /// <summary>Time of the frame, in frame periods.</summary>
    public IReadOnlyList<double> FrameTimes => frameTimes;

    /// <summary>Where in the frame the sample lies: 0 in its first row, 1 in its last.</summary>
    public IReadOnlyList<double> Fractions => fractions;

    /// <summary>Which of the reference's rows.</summary>
    public IReadOnlyList<int> RowNumbers => rows;

    /// <summary>Shifts to the right, px.</summary>
    public IReadOnlyList<double> U => u;

    /// <summary>Shifts down, px.</summary>
    public IReadOnlyList<double> V => v;

    /// <summary>Adds the reference frame, which lies on itself.</summary>
    /// <param name="time">Its time, frame periods.</param>
    public void AddReference(double time)
    {
        for (int row = 0; row < RowCount; row++)
            Add(time, Place(row), row, 0, 0);
    }

    /// <summary>Adds a frame; rows that it does not show are left out.</summary>
    /// <param name="time">Its time, frame periods.</param>
    /// <param name="motion">Its motion against the reference frame, in the ideal picture.</param>
    public void Add(double time, RowMotion motion)
    {
        RowModel model = motion.Model;
        double last = model.Shifts.Height - 1.0;
        double width = model.Width;
        double middle = (width - 1) / 2;
        for (int row = 0; row < RowCount; row++)
        {
            double sensorRow = Place(row) * last;
            (double x, double y) = model.Lens?.ToIdeal(middle, sensorRow) ?? (middle, sensorRow);
            (double shiftU, double shiftV) = motion.DisplacementAt(x, y);
            (double stretch, double turn) = motion.TurnsAt(sensorRow);
            double fraction = model.SensorRow(x + shiftU, y + shiftV) / last;
            if (!double.IsFinite(fraction) || fraction is < 0 or > 1)
                continue;
            // Scale and turn move the right edge by half a width of what they are; above and below the middle they move u and v alike.
            double below = (2 * y / width) - (last / width);
            Add(time, fraction, row, shiftU + (below * turn), shiftV - (below * stretch));
        }
    }

    private static double Place(int row) => (row + 0.5) / RowCount;

    private void Add(double time, double fraction, int row, double shiftU, double shiftV)
    {
        frameTimes.Add(time);
        fractions.Add(fraction);
        rows.Add(row);
        u.Add(shiftU);
        v.Add(shiftV);
    }
}
