using System.Numerics;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;
using MathNet.Numerics.IntegralTransforms;

namespace BosFlow.Tests.Speckle.Boards;

/// <summary>What makes a pattern good for correlation, measured on patterns as drawn.</summary>
public sealed class PatternStatisticsTests
{
    private const int PicturePixels = 512;
    private const int PaddedPixels = 1024;
    private const int PixelsPerMillimetre = 6;

    // 110 000 dots, made once.
    private static readonly Lazy<Board> Fine = new(() => BoardMaker.Make(
        new BoardSettings { WidthMetres = 0.25, HeightMetres = 0.25, Sizes = [new(0.5e-3, 1)], WithFiducials = false }, CancellationToken.None));

    public static TheoryData<BoardSettings> Patterns => new()
    {
        Square(),
        Square() with { Seed = 2 },
        Square() with { Seed = 3 },
        Square() with { Coverage = 0.4 },
        Square() with { Coverage = 0.49, LeastGapMetres = 0 },
        Square() with { Sizes = [new(1.6e-3, 0.5), new(0.8e-3, 0.5)] },
        Square() with { Tones = BoardTones.TwoTone },
    };

    [Theory]
    [MemberData(nameof(Patterns))]
    public void Make_AnyPattern_HasNoSideLobesAboveATenthOutsideTheDot(BoardSettings settings)
    {
        double[,] correlation = Autocorrelation(Render(BoardMaker.Make(settings, CancellationToken.None)));
        double dot = settings.Sizes[0].DiameterMetres * 1000 * PixelsPerMillimetre;
        double nearest = double.NegativeInfinity;
        double farthest = 0;
        int half = PaddedPixels / 4;
        for (int y = -half; y < half; y++)
        {
            for (int x = -half; x < half; x++)
            {
                double lag = Math.Sqrt((x * x) + (y * y));
                double value = correlation[(y + PaddedPixels) % PaddedPixels, (x + PaddedPixels) % PaddedPixels];
                if (lag > dot)
                    nearest = Math.Max(nearest, value);
                if (lag > 4 * dot)
                    farthest = Math.Max(farthest, Math.Abs(value));
            }
        }

        Assert.True(nearest < 0.1, $"side lobe {nearest}");
        // No lattice: that of N dots without order scatters by about 1 / sqrt(N) = 0.017 (3300 dots of 1 mm), a lattice would come back to nearly 1.
        Assert.True(farthest < 0.1, $"far lobe {farthest}");
    }

    [Theory]
    [InlineData(4)]
    [InlineData(10)]
    [InlineData(20)]
    public void Make_CountsInCells_ScatterLessThanPoissons(int cellMillimetres)
    {
        Board board = BoardMaker.Make(Square() with { WidthMetres = 0.3, HeightMetres = 0.3 }, CancellationToken.None);
        int cells = 280 / cellMillimetres;
        int[] counts = new int[cells * cells];
        foreach (PrintedDot dot in board.Dots)
        {
            int column = (int)((dot.X - board.Pattern.Left - 1e-3) * 1000 / cellMillimetres);
            int row = (int)((dot.Y - board.Pattern.Top - 1e-3) * 1000 / cellMillimetres);
            if (column >= 0 && row >= 0 && column < cells && row < cells)
                counts[(row * cells) + column]++;
        }

        double mean = counts.Average();
        double variance = counts.Sum(count => (count - mean) * (count - mean)) / (counts.Length - 1);
        // Poisson: variance = mean. Hard discs at this coverage scatter far less; clusters would scatter more.
        Assert.InRange(variance / mean, 0, 0.5);
    }

    [Fact]
    public void Make_NearestNeighbours_AreFartherThanPoissons()
    {
        // Mean distance to the nearest neighbour of a planar Poisson process of density rho is 1 / (2 sqrt(rho)): P. Hertz 1909, Math. Ann. 67:387.
        Board board = BoardMaker.Make(Square(), CancellationToken.None);
        double density = 0.35 / (Math.PI / 4 * 1e-6);
        double mean = board.Dots.Take(500).Average(dot =>
            board.Dots.Where(other => other != dot).Min(other => Math.Sqrt(Math.Pow(other.X - dot.X, 2) + Math.Pow(other.Y - dot.Y, 2))));

        Assert.InRange(mean, 1.2 / (2 * Math.Sqrt(density)), 1 / Math.Sqrt(density));
    }

    [Theory]
    [InlineData(0, 0.25)]
    [InlineData(0.25, 0.5)]
    [InlineData(0.5, 1)]
    [InlineData(1, 2)]
    public void Make_AlongTheEdges_HasTheDensityOfTheInterior(double fromDots, double toDots)
    {
        Board board = Fine.Value;
        double diameter = board.Settings.Sizes[0].DiameterMetres;
        // Depth of a centre inside the places that a centre may have.
        double Depth(PrintedDot dot) => Math.Min(
            Math.Min(dot.X - board.Pattern.Left, board.Pattern.Right - dot.X), Math.Min(dot.Y - board.Pattern.Top, board.Pattern.Bottom - dot.Y)) - (diameter / 2);
        double Area(double depth) => (board.Pattern.Width - diameter - (2 * depth)) * (board.Pattern.Height - diameter - (2 * depth));
        double from = fromDots * diameter;
        double to = toDots * diameter;

        double interior = board.Dots.Count(dot => Depth(dot) >= 0.01) / Area(0.01);
        int counted = board.Dots.Count(dot => Depth(dot) >= from && Depth(dot) < to);

        double expected = interior * (Area(from) - Area(to));
        Assert.Equal(expected, counted, Tolerances.StandardErrors * Math.Sqrt(expected));
    }

    [Fact]
    public void Make_AtTheBordersOfTiles_HasTheDensityOfTheWhole()
    {
        Board board = BoardMaker.Make(new BoardSettings { WidthMetres = 0.6, HeightMetres = 0.5, Sizes = [new(1e-3, 1)], WithFiducials = false }, CancellationToken.None);
        SheetPlan plan = SheetPlanner.Plan(0.6, 0.5, PaperSize.Find("A4")!, null, 0.008, 0.01);
        double whole = board.Dots.Count / ((board.Pattern.Width - 1e-3) * (board.Pattern.Height - 1e-3));

        Assert.True(plan.Columns > 1);
        foreach (double border in plan.Sheets.Where(sheet => sheet.Row == 0 && sheet.Column > 0).Select(sheet => sheet.Net.Left))
        {
            double expected = whole * 4e-3 * (board.Pattern.Height - 1e-3);
            Assert.Equal(expected, board.Dots.Count(dot => Math.Abs(dot.X - border) < 2e-3), Tolerances.StandardErrors * Math.Sqrt(expected));
        }
    }

    private static BoardSettings Square() => new() { WidthMetres = 0.12, HeightMetres = 0.12, Sizes = [new(1e-3, 1)], WithFiducials = false };

    // The middle of the pattern, ink as 1 or -1, edges of dots smoothed over a pixel.
    private static double[,] Render(Board board)
    {
        var picture = new double[PicturePixels, PicturePixels];
        double left = (board.Pattern.Left * 1000) + 10;
        double top = (board.Pattern.Top * 1000) + 10;
        foreach (PrintedDot dot in board.Dots)
        {
            double x = ((dot.X * 1000) - left) * PixelsPerMillimetre;
            double y = ((dot.Y * 1000) - top) * PixelsPerMillimetre;
            double radius = board.Settings.Sizes[dot.Size].DiameterMetres * 500 * PixelsPerMillimetre;
            for (int row = Math.Max(0, (int)(y - radius - 1)); row <= Math.Min(PicturePixels - 1, y + radius + 1); row++)
            {
                for (int column = Math.Max(0, (int)(x - radius - 1)); column <= Math.Min(PicturePixels - 1, x + radius + 1); column++)
                {
                    double inside = radius + 0.5 - Math.Sqrt(Math.Pow(column + 0.5 - x, 2) + Math.Pow(row + 0.5 - y, 2));
                    picture[row, column] += Math.Clamp(inside, 0, 1) * (dot.IsLight ? 1 : -1);
                }
            }
        }

        return picture;
    }

    // Without its mean, padded so that nothing meets itself around the edge, each lag over the number of pixels that it compares; 1 at lag 0.
    private static double[,] Autocorrelation(double[,] picture)
    {
        double mean = picture.Cast<double>().Average();
        Complex[][] rows = [.. Enumerable.Range(0, PaddedPixels).Select(row => new Complex[PaddedPixels])];
        for (int row = 0; row < PicturePixels; row++)
        {
            for (int column = 0; column < PicturePixels; column++)
                rows[row][column] = picture[row, column] - mean;
        }

        Complex[][] spectrum = TransformBothWays(rows, row => Fourier.Forward(row));
        foreach (Complex[] row in spectrum)
        {
            for (int i = 0; i < row.Length; i++)
                row[i] = (row[i].Real * row[i].Real) + (row[i].Imaginary * row[i].Imaginary);
        }

        Complex[][] products = TransformBothWays(spectrum, row => Fourier.Inverse(row));
        double Compared(int lag) => 1 - (Math.Min(lag, PaddedPixels - lag) / (double)PicturePixels);
        var correlation = new double[PaddedPixels, PaddedPixels];
        for (int row = 0; row < PaddedPixels; row++)
        {
            for (int column = 0; column < PaddedPixels; column++)
            {
                double compared = Compared(row) * Compared(column);
                correlation[row, column] = compared > 0 ? products[row][column].Real / compared / products[0][0].Real : 0;
            }
        }

        return correlation;
    }

    // MathNet's managed transform knows one dimension: rows, then columns, which are then rows; the picture comes out turned over its diagonal.
    private static Complex[][] TransformBothWays(Complex[][] rows, Action<Complex[]> transform)
    {
        foreach (Complex[] row in rows)
            transform(row);
        Complex[][] columns = [.. Enumerable.Range(0, PaddedPixels).Select(column => rows.Select(row => row[column]).ToArray())];
        foreach (Complex[] column in columns)
            transform(column);
        return columns;
    }
}
