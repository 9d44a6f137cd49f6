using BosFlow.Results.Boards;
using CsCheck;

namespace BosFlow.Results.Tests.Boards;

public sealed class DiscRasterTests
{
    private const int Size = 24;

    [Fact]
    public void Row_AnyDisc_AreaIsThatOfTheDisc()
    {
        Gen.Select(Gen.Double[1.5, 10], Gen.Double[11, 13], Gen.Double[11, 13]).Sample((radius, x, y) =>
        {
            double area = 0;
            Span<float> covered = stackalloc float[Size];
            for (int row = 0; row < Size; row++)
            {
                DiscRaster.Row(x, y - row, radius, covered);
                foreach (float part in covered)
                    area += part;
            }

            // The 16 lines miss parts of the caps at top and bottom: at most a line's height of the widest chord there.
            double error = Math.Abs((area / (Math.PI * radius * radius)) - 1);
            return error < 0.02 / radius;
        });
    }

    [Fact]
    public void Row_AnyDisc_AsManyFinePointsSay()
    {
        const int points = 128;
        Gen.Select(Gen.Double[0.3, 10], Gen.Double[11, 13], Gen.Double[-3, 3]).Sample(
            (radius, x, y) =>
            {
                Span<float> covered = stackalloc float[Size];
                DiscRaster.Row(x, y, radius, covered);
                for (int pixel = 0; pixel < Size; pixel++)
                {
                    int inside = 0;
                    for (int i = 0; i < points * points; i++)
                    {
                        double dx = pixel + ((i % points + 0.5) / points) - x;
                        double dy = ((i / points + 0.5) / points) - y;
                        inside += (dx * dx) + (dy * dy) < radius * radius ? 1 : 0;
                    }

                    // A sixteenth of a row may be missed where a disc only just reaches into it.
                    if (Math.Abs(covered[pixel] - (inside / (double)(points * points))) > 1.0 / 16)
                        return false;
                }

                return true;
            },
            iter: 30);
    }
}
