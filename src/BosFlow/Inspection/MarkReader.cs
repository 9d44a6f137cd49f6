using BosFlow.Camera;
using BosFlow.Numerics.Robust;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Reads black, white and blur from the fiducials: their cells are the largest even areas of a board.</summary>
internal static class MarkReader
{
    private const int PointsAlong = 5;
    private const double MiddleOfCell = 0.4;
    private const int LeastNeighbours = 3;
    private const double ProfileReach = 0.45;
    private const int ProfileSteps = 19;
    private const int ProfileLines = 60;

    /// <summary>Reads a fiducial.</summary>
    /// <param name="picture">The photo.</param>
    /// <param name="map">From board to photo.</param>
    /// <param name="fiducial">A fiducial that was found in it.</param>
    /// <param name="quietZone">Width of its white zone, m.</param>
    /// <param name="growth">By how much its edges lie outward, m.</param>
    /// <returns>Null where it reaches out of the photo.</returns>
    public static MarkReading? Read(LightPicture picture, PlaneMap map, Fiducial fiducial, double quietZone, double growth)
    {
        double half = (fiducial.Side / 2) + quietZone;
        foreach ((int x, int y) in new[] { (-1, -1), (1, -1), (1, 1), (-1, 1) })
        {
            (double column, double row) = map.ToPicture(fiducial.X + (x * half), fiducial.Y + (y * half));
            if (!picture.Holds(column, row))
                return null;
        }

        var black = new List<double>();
        var white = new List<double>();
        for (int row = -1; row <= FiducialCode.Cells; row++)
        {
            for (int column = -1; column <= FiducialCode.Cells; column++)
                AddCell(picture, map, fiducial, quietZone, row, column, black, white);
        }

        (double x0, double y0) = map.ToPicture(fiducial.X, fiducial.Y);
        double cell = fiducial.Side / FiducialCode.Cells;
        double cellPixels = cell * Math.Sqrt(map.AreaScaleAt(fiducial.X, fiducial.Y));
        double blur = Blur(picture, map, fiducial, cell, growth) * cellPixels / cell;
        return new MarkReading(x0, y0, Quantiles.Median<double>([.. white]), Quantiles.Median<double>([.. black]), blur, cellPixels);
    }

    private static void AddCell(
        LightPicture picture, PlaneMap map, Fiducial fiducial, double quietZone, int row, int column, List<double> black, List<double> white)
    {
        const int cells = FiducialCode.Cells;
        bool isOutside = row < 0 || column < 0 || row >= cells || column >= cells;
        bool isCorner = isOutside && row is < 0 or >= cells && column is < 0 or >= cells;
        if (isCorner)
            return;
        bool isBlack = IsBlack(fiducial.Id, row, column);
        int same = new[] { (0, 1), (0, -1), (1, 0), (-1, 0) }.Count(step => IsBlack(fiducial.Id, row + step.Item1, column + step.Item2) == isBlack);
        // Light of the other colour leaks in over few edges only; the white zone has black on one side.
        if (!isOutside && same < LeastNeighbours)
            return;
        double cell = fiducial.Side / cells;
        double x = fiducial.X - (fiducial.Side / 2) + Middle(column, cell, quietZone);
        double y = fiducial.Y - (fiducial.Side / 2) + Middle(row, cell, quietZone);
        double size = MiddleOfCell * (isOutside ? Math.Min(cell, quietZone) : cell);
        double sum = 0;
        for (int i = 0; i < PointsAlong * PointsAlong; i++)
        {
            double dx = (((i % PointsAlong) / (PointsAlong - 1.0)) - 0.5) * size;
            double dy = (((i / PointsAlong) / (PointsAlong - 1.0)) - 0.5) * size;
            (double u, double v) = map.ToPicture(x + dx, y + dy);
            if (!picture.Holds(u, v))
                return;
            sum += picture.At(u, v);
        }

        (isBlack ? black : white).Add(sum / (PointsAlong * PointsAlong));
    }

    private static double Middle(int index, double cell, double quietZone) =>
        index < 0 ? -quietZone / 2 : index >= FiducialCode.Cells ? (FiducialCode.Cells * cell) + (quietZone / 2) : (index + 0.5) * cell;

    private static bool IsBlack(int id, int row, int column) =>
        row >= 0 && column >= 0 && row < FiducialCode.Cells && column < FiducialCode.Cells && FiducialCode.IsBlack(id, row, column);

    /// <summary>Standard deviation of the outer edges' blur, m on the board: the spread of the slope of the light across them.</summary>
    private static double Blur(LightPicture picture, PlaneMap map, Fiducial fiducial, double cell, double growth)
    {
        double[] profile = new double[ProfileSteps];
        double half = fiducial.Side / 2;
        for (int step = 0; step < ProfileSteps; step++)
        {
            double across = half + growth + (((2.0 * step / (ProfileSteps - 1)) - 1) * ProfileReach * cell);
            for (int line = 0; line < ProfileLines; line++)
            {
                double along = ((((line + 0.5) / ProfileLines) * 2) - 1) * (half - cell);
                foreach ((double x, double y) in new[] { (across, along), (-across, along), (along, across), (along, -across) })
                {
                    (double u, double v) = map.ToPicture(fiducial.X + x, fiducial.Y + y);
                    profile[step] += picture.Holds(u, v) ? picture.At(u, v) : double.NaN;
                }
            }
        }

        double stepWidth = 2 * ProfileReach * cell / (ProfileSteps - 1);
        double weight = 0;
        double mean = 0;
        double square = 0;
        for (int step = 1; step < ProfileSteps; step++)
        {
            double slope = profile[step] - profile[step - 1];
            double place = (step - 0.5) * stepWidth;
            weight += slope;
            mean += slope * place;
            square += slope * place * place;
        }

        mean /= weight;
        return Math.Sqrt(Math.Max(0, (square / weight) - (mean * mean)));
    }
}
