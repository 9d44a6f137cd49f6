using BosFlow.Camera;
using BosFlow.Footage;

namespace BosFlow.Inspection;

/// <summary>A photo as light, part of full scale: where a pixel lies half on ink, its light is halfway.</summary>
internal sealed class LightPicture
{
    private readonly float[] light;

    public LightPicture(GrayImage photo, PictureTones tones)
    {
        Width = photo.Width;
        Height = photo.Height;
        FullScale = float.IsNaN(photo.WhiteLevel) ? Highest(photo) : photo.WhiteLevel;
        light = new float[photo.Pixels.Length];
        for (int i = 0; i < light.Length; i++)
            light[i] = (float)ToneCurve.ToLight(Math.Clamp(photo.Pixels[i] / FullScale, 0, 1), tones);
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Grey level that counts as full scale, digital numbers.</summary>
    public float FullScale { get; }

    public float this[int index] => light[index];

    /// <summary>Whether a place lies in the picture with all four pixels around it.</summary>
    public bool Holds(double x, double y) => x >= 0 && y >= 0 && x < Width - 1 && y < Height - 1;

    /// <summary>Light at a place between pixels, bilinear.</summary>
    /// <param name="x">Column, px; within <see cref="Holds"/>.</param>
    /// <param name="y">Row, px.</param>
    public double At(double x, double y)
    {
        int column = (int)x;
        int row = (int)y;
        double a = x - column;
        double b = y - row;
        int at = (row * Width) + column;
        return ((1 - b) * (((1 - a) * light[at]) + (a * light[at + 1]))) + (b * (((1 - a) * light[at + Width]) + (a * light[at + Width + 1])));
    }

    private static float Highest(GrayImage photo)
    {
        float highest = 0;
        foreach (float level in photo.Pixels)
        {
            if (level > highest)
                highest = level;
        }

        return highest > 0 ? highest : 1;
    }
}
