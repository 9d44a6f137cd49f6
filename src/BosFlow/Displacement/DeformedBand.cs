using BosFlow.Footage;
using System.Numerics;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>
/// The flow frame deformed back onto the reference, as a band of rows that moves down the picture: as many rows as a
/// window is high. Grey levels have the frame's mean taken off.
/// </summary>
internal sealed class DeformedBand
{
    /// <summary>The position lies outside the frame; other codes are those of <see cref="PixelDefects"/>.</summary>
    public const byte OutsideFrame = 3;

    private readonly ReferenceTexture texture;
    private readonly int size;
    private readonly int width;
    private readonly float[][] levels;
    private readonly byte[][] missing;
    private readonly bool[] anyMissing;
    private readonly float[] u;
    private readonly float[] v;
    private readonly float[] inside;

    public DeformedBand(int size, ReferenceTexture texture)
    {
        this.texture = texture;
        this.size = size;
        width = texture.Width;
        levels = new float[size][];
        missing = new byte[size][];
        anyMissing = new bool[size];
        for (int i = 0; i < size; i++)
        {
            levels[i] = new float[width];
            missing[i] = new byte[width];
        }

        u = new float[width + Vector<float>.Count];
        v = new float[width + Vector<float>.Count];
        inside = new float[width];
    }

    /// <summary>Deforms the next row; it takes the place of the oldest one.</summary>
    public void Advance(int y, PreparedFrame frame, PredictorField predictor)
    {
        float[] row = levels[y % size];
        predictor.Row(y, width, u, v);
        BSplineWarp.Row(frame.Spline, y, u.AsSpan(0, width), v.AsSpan(0, width), row, inside);
        byte[] codes = missing[y % size];
        bool any = TakeOffMean(row, frame.MeanLevel);
        if (any)
            any = MarkOutside(y, codes);
        else
            Array.Clear(codes);
        if (frame.Defects is not null)
            any |= MarkDefects(y, frame.Defects, frame.Width, frame.Height, codes);
        anyMissing[y % size] = any;
        if (!any)
            return;
        for (int x = 0; x < width; x++)
        {
            if (codes[x] != 0)
                row[x] = 0;
        }
    }

    /// <summary>Grey levels of a row in the band, 0 where missing.</summary>
    public float[] Levels(int y) => levels[y % size];

    /// <summary>Why a pixel of a row in the band is missing; 0 where it is not.</summary>
    public byte[] Missing(int y) => missing[y % size];

    /// <summary>Whether any pixel of the rows top .. top + size - 1 is missing.</summary>
    public bool AnyMissing(int top)
    {
        for (int y = top; y < top + size; y++)
        {
            if (anyMissing[y % size])
                return true;
        }

        return false;
    }

    // Returns whether any position lies outside the frame.
    private bool TakeOffMean(float[] row, float mean)
    {
        int lanes = Vector<float>.Count, x = 0;
        Vector<float> least = Vector<float>.One, wideMean = new(mean);
        for (; x <= width - lanes; x += lanes)
        {
            (new Vector<float>(row, x) - wideMean).CopyTo(row, x);
            least = Vector.Min(least, new Vector<float>(inside, x));
        }

        bool any = !Vector.EqualsAll(least, Vector<float>.One);
        for (; x < width; x++)
        {
            row[x] -= mean;
            any |= inside[x] == 0;
        }

        return any;
    }

    // Where the reference is not usable either, nothing is missing: such pixels are in no sum.
    private bool MarkOutside(int y, byte[] codes)
    {
        ReadOnlySpan<float> usable = texture.Usable.AsSpan(y * width, width);
        bool any = false;
        for (int x = 0; x < width; x++)
        {
            codes[x] = inside[x] == 0 && usable[x] != 0 ? OutsideFrame : (byte)0;
            any |= codes[x] != 0;
        }

        return any;
    }

    private bool MarkDefects(int y, byte[] defects, int frameWidth, int frameHeight, byte[] codes)
    {
        bool any = false;
        for (int x = 0; x < width; x++)
        {
            if (codes[x] != 0)
                continue;
            int column = Math.Clamp((int)MathF.Round(x + u[x]), 0, frameWidth - 1);
            int line = Math.Clamp((int)MathF.Round(y + v[x]), 0, frameHeight - 1);
            codes[x] = defects[(line * frameWidth) + column];
            any |= codes[x] != 0;
        }

        return any;
    }
}
