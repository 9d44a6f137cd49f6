using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>What the engine needs of the reference picture, pixel by pixel: computed once a run. Every plane is zero at unusable pixels.</summary>
internal sealed class ReferenceTexture
{
    // Nearer to the border the mirrored continuation of the picture shows in the derivative.
    private const int Border = 3;

    /// <summary>Prepares a reference.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="measurable">Pixels that may be used.</param>
    /// <param name="sampling">What the spectra of a larger picture say of which this one is a part; null = this one's own.</param>
    public ReferenceTexture(GrayImage image, PixelMask measurable, ReferenceSampling? sampling = null)
    {
        Width = image.Width;
        Height = image.Height;
        int count = Width * Height;
        Level = new float[count];
        GradientX = new float[count];
        GradientY = new float[count];
        Usable = new float[count];
        Defects = PixelDefects.Find(image);
        MeanLevel = Mean(image, measurable);
        ReadOnlySpan<byte> measured = measurable.Values;
        for (int i = 0; i < count; i++)
        {
            float pixel = image.Pixels[i];
            Level[i] = float.IsNaN(pixel) ? 0 : pixel - MeanLevel;
            Usable[i] = measured[i] != 0 && (Defects is null || Defects[i] == 0) ? 1 : 0;
        }

        SplineGradient.Compute(Level, Width, Height, GradientX, GradientY);
        Sampling = sampling ?? ReferenceSampling.Of(image, measurable, new MatchConditions());
        Sampling?.Levels.Apply(Level, Usable, Width);
        KeepUsable();
        GradientNoise = SplineGradient.NoiseGain / 2;
        if (Sampling is not null)
        {
            // Nothing of unusable pixels goes into the others.
            GradientNoise = Sampling.Filter.Apply(GradientX, GradientY, Width, Sampling.Noise) / Sampling.ResidualNoise;
            KeepUsable();
        }
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Mean grey level of the measured pixels, digital numbers; taken off <see cref="Level"/>.</summary>
    public float MeanLevel { get; }

    /// <summary>Grey level minus the mean, filtered (<see cref="LevelFilter"/>).</summary>
    public float[] Level { get; }

    /// <summary>What the picture's spectra say of its sampling; null where they show no pattern.</summary>
    public ReferenceSampling? Sampling { get; }

    /// <summary>Variance of the noise in a derivative over that of a residual.</summary>
    public double GradientNoise { get; }

    /// <summary>Factor by which windows of a side scatter more than blocks of a side tell, since neighbouring pixels share noise (<see cref="SharedNoise"/>); 1 where no pattern is known.</summary>
    /// <param name="blockSide">Side of a block, px.</param>
    /// <param name="windowSide">Side of the windows, px.</param>
    public double SharedScatter(int blockSide, int windowSide) => Sampling?.Shared.Factor(blockSide, windowSide) ?? 1;

    /// <summary>Derivative along x, digital numbers per px, filtered (<see cref="GradientFilter"/>).</summary>
    public float[] GradientX { get; }

    /// <summary>The same along y.</summary>
    public float[] GradientY { get; }

    /// <summary>1 where the pixel takes part, else 0.</summary>
    public float[] Usable { get; }

    /// <summary>Codes of <see cref="PixelDefects"/>; null where the reference has none.</summary>
    public byte[]? Defects { get; }

    private static float Mean(GrayImage image, PixelMask measurable)
    {
        double sum = 0;
        long n = 0;
        ReadOnlySpan<byte> measured = measurable.Values;
        for (int i = 0; i < image.Pixels.Length; i++)
        {
            if (measured[i] != 0 && !float.IsNaN(image.Pixels[i]))
            {
                sum += image.Pixels[i];
                n++;
            }
        }

        return n == 0 ? 0 : (float)(sum / n);
    }

    private void KeepUsable()
    {
        for (int y = 0; y < Height; y++)
        {
            bool inside = y >= Border && y < Height - Border;
            for (int x = 0; x < Width; x++)
            {
                int i = (y * Width) + x;
                if (!inside || x < Border || x >= Width - Border)
                    Usable[i] = 0;
                Level[i] *= Usable[i];
                GradientX[i] *= Usable[i];
                GradientY[i] *= Usable[i];
            }
        }
    }
}
