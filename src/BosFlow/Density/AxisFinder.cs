using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Finds the axis of a round flow from the mirror symmetry of its displacement.</summary>
/// <remarks>
/// First the direction in which the displacement is smallest (smaller principal axis of its second moments), or the one given; about it, all axes in coarse steps, of
/// which the one with the largest overlap of the field with its mirror image is taken; then Gauss-Newton least squares on the difference of both sides, each in units of
/// its uncertainty, over position and direction.
/// </remarks>
internal static class AxisFinder
{
    private const double SearchDegrees = 40;
    private const double CoarseDegrees = 4;
    private const int MostCoarsePlaces = 600;
    private const int MostCoarseOffsets = 60;
    private const int MostPlaces = 10000;
    private const int Turns = 12;
    private const double PixelStep = 0.05;

    // Below this share of the energy the two sides have little in common.
    private const double LeastOverlap = 0.3;

    /// <summary>Finds the axis.</summary>
    /// <param name="field">The displacement.</param>
    /// <param name="roughDirection">Where to start, degrees counter-clockwise as seen; null = from the field.</param>
    /// <param name="nodesPerError">Number of nodes that share one error because their windows overlap, 1 or more.</param>
    /// <returns>Axis through the middle of the field, its estimate; null where no axis of symmetry is there.</returns>
    public static (AxisFrame Frame, AxisEstimate Estimate)? Find(SightlineField field, double? roughDirection, double nodesPerError)
    {
        var coarse = new MirrorSymmetry(field, Stride(field.Grid, MostCoarsePlaces));
        if (!(coarse.Energy > 0))
            return null;
        AxisFrame start = Coarse(coarse, field.Grid, roughDirection ?? QuietDirection(field));
        if (coarse.Overlap(start) < LeastOverlap * coarse.Energy)
            return null;
        int stride = Stride(field.Grid, MostPlaces);
        var symmetry = new MirrorSymmetry(field, stride);
        (AxisFrame frame, double sigmaAcross, double sigmaDegrees) = Refine(symmetry, start, field.Grid, Math.Max(1, nodesPerError / (stride * stride)));
        return (frame, new AxisEstimate(frame.X, frame.Y, Folded(frame.DirectionDegrees), sigmaAcross, sigmaDegrees, symmetry.AsymmetryShare(frame), IsFound: true));
    }

    private static int Stride(NodeGrid grid, int mostPlaces) => Math.Max(1, (int)Math.Ceiling(Math.Sqrt((double)grid.Count / mostPlaces)));

    /// <summary>A direction without its sense, -90 exclusive to 90 degrees.</summary>
    public static double Folded(double degrees)
    {
        double folded = Math.IEEERemainder(degrees, 180);
        return folded <= -90 ? folded + 180 : folded;
    }

    private static double QuietDirection(SightlineField field)
    {
        double uu = 0;
        double uv = 0;
        double vv = 0;
        for (int node = 0; node < field.Grid.Count; node++)
        {
            if (!field.IsKnown[node])
                continue;
            uu += field.U[node] * field.U[node];
            uv += field.U[node] * field.V[node];
            vv += field.V[node] * field.V[node];
        }

        // Direction of the larger principal axis, y down; the axis lies across it.
        double loud = 0.5 * Math.Atan2(2 * uv, uu - vv);
        return 90 - double.RadiansToDegrees(loud);
    }

    private static AxisFrame Coarse(MirrorSymmetry symmetry, NodeGrid grid, double direction)
    {
        double middleX = grid.X(0) + (0.5 * grid.Spacing * (grid.Columns - 1));
        double middleY = grid.Y(0) + (0.5 * grid.Spacing * (grid.Rows - 1));
        double reach = 0.5 * grid.Spacing * Math.Max(grid.Columns, grid.Rows);
        double step = Math.Max(grid.Spacing, 2 * reach / MostCoarseOffsets);
        AxisFrame best = AxisFrame.At(middleX, middleY, direction);
        double largest = double.NegativeInfinity;
        for (double turn = -SearchDegrees; turn <= SearchDegrees; turn += CoarseDegrees)
        {
            AxisFrame middle = AxisFrame.At(middleX, middleY, direction + turn);
            for (double right = -reach; right <= reach; right += step)
            {
                AxisFrame axis = middle.MovedRight(right);
                double overlap = symmetry.Overlap(axis);
                if (overlap > largest)
                    (largest, best) = (overlap, axis);
            }
        }

        return best;
    }

    private static (AxisFrame Frame, double SigmaAcross, double SigmaDegrees) Refine(MirrorSymmetry symmetry, AxisFrame start, NodeGrid grid, double nodesPerError)
    {
        AxisFrame axis = start;
        double degreeStep = double.RadiansToDegrees(PixelStep / (grid.Spacing * Math.Max(grid.Columns, grid.Rows) / 4));
        double a = 0, b = 0, c = 0, chi = 0;
        int count = 0;
        for (int turn = 0; turn < Turns; turn++)
        {
            double[] rest = symmetry.Differences(axis);
            double[] byRight = Derivative(symmetry, axis.MovedRight(PixelStep), axis.MovedRight(-PixelStep), 2 * PixelStep);
            double[] byDegrees = Derivative(symmetry, AxisFrame.At(axis.X, axis.Y, axis.DirectionDegrees + degreeStep), AxisFrame.At(axis.X, axis.Y, axis.DirectionDegrees - degreeStep), 2 * degreeStep);
            (a, b, c, double right, double degrees, chi, count) = Normal(rest, byRight, byDegrees);
            double determinant = (a * c) - (b * b);
            if (!(determinant > 0))
                break;
            double moveRight = -((c * right) - (b * degrees)) / determinant;
            double moveDegrees = -((a * degrees) - (b * right)) / determinant;
            axis = AxisFrame.At(axis.X, axis.Y, axis.DirectionDegrees + moveDegrees).MovedRight(moveRight);
            if (Math.Abs(moveRight) < 1e-5 && Math.Abs(moveDegrees) < 1e-6)
                break;
        }

        double det = (a * c) - (b * b);
        // Every pair of places is compared twice, and nodes that share their windows' pixels share their errors: both leave fewer independent differences.
        double inflation = 2 * nodesPerError * Math.Max(1, count > 2 ? chi / (2 * (count - 2)) : 1);
        return (axis, det > 0 ? Math.Sqrt(2 * inflation * c / det) : double.NaN, det > 0 ? Math.Sqrt(2 * inflation * a / det) : double.NaN);
    }

    private static double[] Derivative(MirrorSymmetry symmetry, AxisFrame plus, AxisFrame minus, double difference)
    {
        double[] upper = symmetry.Differences(plus);
        double[] lower = symmetry.Differences(minus);
        for (int i = 0; i < upper.Length; i++)
            upper[i] = upper[i] == 0 || lower[i] == 0 ? 0 : (upper[i] - lower[i]) / difference;
        return upper;
    }

    private static (double A, double B, double C, double Right, double Degrees, double Chi, int Count) Normal(double[] rest, double[] byRight, double[] byDegrees)
    {
        double a = 0, b = 0, c = 0, right = 0, degrees = 0, chi = 0;
        int count = 0;
        for (int i = 0; i < rest.Length; i++)
        {
            if (rest[i] == 0)
                continue;
            a += byRight[i] * byRight[i];
            b += byRight[i] * byDegrees[i];
            c += byDegrees[i] * byDegrees[i];
            right += byRight[i] * rest[i];
            degrees += byDegrees[i] * rest[i];
            chi += rest[i] * rest[i];
            count++;
        }

        return (a, b, c, right, degrees, chi, count);
    }
}
