namespace BosFlow.Footage;

/// <summary>Which pixels of a picture take part: one byte a pixel, 1 = takes part, 0 = does not. Row-major.</summary>
public sealed class PixelMask
{
    private readonly byte[] values;

    /// <summary>Wraps an array that the caller gives up.</summary>
    /// <param name="width">Pixels in a row, at least 1.</param>
    /// <param name="height">Rows, at least 1.</param>
    /// <param name="values">0 or 1 for each pixel, row-major, length width * height.</param>
    public PixelMask(int width, int height, byte[] values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Length != checked(width * height))
            throw new ArgumentException($"{values.Length} values given for {width} x {height}.", nameof(values));
        Width = width;
        Height = height;
        this.values = values;
    }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    /// <summary>0 or 1 for each pixel, row after row.</summary>
    public ReadOnlySpan<byte> Values => values;

    /// <summary>Whether the pixel takes part.</summary>
    /// <param name="x">Column, 0 to Width - 1.</param>
    /// <param name="y">Row, 0 to Height - 1.</param>
    public bool this[int x, int y] => values[(y * Width) + x] != 0;

    /// <summary>A mask in which every pixel takes part.</summary>
    /// <param name="width">Pixels in a row.</param>
    /// <param name="height">Rows.</param>
    public static PixelMask All(int width, int height)
    {
        byte[] all = new byte[checked(width * height)];
        Array.Fill(all, (byte)1);
        return new PixelMask(width, height, all);
    }
}
