using BosFlow.Footage;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Turns exact light levels into a recorded picture: noise, tone curve, clipping, rounding.</summary>
public static class Sensor
{
    /// <summary>Exposes one frame.</summary>
    /// <param name="levels">Row-major levels as a share of full scale; used up: the picture takes the array over.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="settings">Noise and bits.</param>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="frame">Number of the frame: every frame has noise of its own.</param>
    /// <param name="cancellationToken">Stops between two rows.</param>
    /// <returns>The picture in digital numbers; the same for the same seed and frame, whatever the number of threads.</returns>
    public static GrayImage Expose(float[] levels, int width, int height, SensorSettings settings, ulong seed, int frame, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(levels);
        ArgumentNullException.ThrowIfNull(settings);
        Parallel.For(0, height, new ParallelOptions { CancellationToken = cancellationToken }, row =>
        {
            Span<float> line = levels.AsSpan(row * width, width);
            if (settings.NoisePercent > 0 || settings.FullWellElectrons is not null)
                AddNoise(line, settings, new SeededRandom(SeededRandom.PartSeed(seed, frame, row)));
            for (int i = 0; i < line.Length; i++)
                line[i] = (float)Number(Tone(line[i], settings), settings);
        });
        return new GrayImage(width, height, levels, settings.Bits == 0 ? float.NaN : (float)settings.FullScale);
    }

    private static double Tone(double light, SensorSettings settings) => settings.Gamma == 1 ? light : Math.Pow(Math.Max(0, light), 1 / settings.Gamma);

    private static double Number(double level, SensorSettings settings)
    {
        if (settings.Bits == 0)
            return level * settings.FullScale;
        double largest = (1 << settings.Bits) - 1;
        double code = Math.Clamp(Math.Floor((level * largest) + 0.5), 0, largest);
        return largest == settings.FullScale ? code : Math.Floor((code * settings.FullScale / largest) + 0.5);
    }

    private static void AddNoise(Span<float> line, SensorSettings settings, SeededRandom random)
    {
        double readVariance = settings.NoisePercent * settings.NoisePercent * 1e-4;
        double shotVariance = settings.FullWellElectrons is double electrons ? 1 / electrons : 0;
        for (int i = 0; i < line.Length; i++)
            line[i] += (float)(random.NextNormal() * Math.Sqrt(readVariance + (shotVariance * Math.Max(0, line[i]))));
    }
}
