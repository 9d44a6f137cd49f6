using BosFlow.Numerics.Spectral;

namespace BosFlow.Numerics.Tests.Spectral;

public sealed class TileSpectraTests
{
    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(128)]
    [InlineData(256)]
    public void Correlate_TwoTilesAtATime_AgreesWithOnePairAtATime(int size)
    {
        float[][] tiles = [.. Enumerable.Range(0, 3).Select(seed => Noise(size * size, seed))];
        var spectra = new TileSpectra(size, tiles);
        var work = new TileSpectra.Workspace(size);
        var correlator = new WindowCorrelator(size);
        float[] first = Moved(tiles[2], size, 3, -2), second = Moved(tiles[0], size, -1, 4);
        first.CopyTo(work.Tile(0));
        second.CopyTo(work.Tile(1));

        (CorrelationPeak one, CorrelationPeak other) = spectra.Correlate(2, 0, (size / 2) - 1, work);

        AssertNear(correlator.Correlate(tiles[2], first), one);
        AssertNear(correlator.Correlate(tiles[0], second), other);
        Assert.Equal((3, -2), (Math.Round(one.Dx), Math.Round(one.Dy)));
        Assert.Equal((-1, 4), (Math.Round(other.Dx), Math.Round(other.Dy)));
    }

    [Fact]
    public void Correlate_TileWithoutContrast_HasNoPeakAndLeavesTheOtherAlone()
    {
        float[] tile = Noise(32 * 32, 1);
        var spectra = new TileSpectra(32, [tile]);
        var work = new TileSpectra.Workspace(32);
        tile.CopyTo(work.Tile(0));
        work.Tile(1).Fill(7);

        (CorrelationPeak one, CorrelationPeak other) = spectra.Correlate(0, 0, 15, work);

        Assert.Equal(1, one.Value, 1e-5);
        Assert.True(double.IsNaN(other.Dx));
    }

    // Logarithms of correlations with single-precision errors.
    private static void AssertNear(CorrelationPeak expected, CorrelationPeak actual)
    {
        Assert.Equal(expected.Dx, actual.Dx, 1e-3);
        Assert.Equal(expected.Dy, actual.Dy, 1e-3);
        Assert.Equal(expected.Value, actual.Value, 1e-4);
        Assert.Equal(expected.PeakRatio, actual.PeakRatio, 1e-2);
    }

    private static float[] Noise(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => random.NextSingle())];
    }

    private static float[] Moved(float[] tile, int size, int dx, int dy)
    {
        var random = new Random(9);
        return [.. Enumerable.Range(0, tile.Length).Select(i =>
            (2 * tile[((((i / size) - dy + size) % size) * size) + (((i % size) - dx + size) % size)]) + 5 + (0.5f * random.NextSingle()))];
    }
}
