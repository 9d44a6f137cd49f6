namespace BosFlow.Camera;

/// <summary>How a picture's grey levels follow the light.</summary>
public enum PictureTones
{
    /// <summary>By the curve of sRGB (IEC 61966-2-1), which ordinary JPEG and PNG pictures follow more or less.</summary>
    Srgb,

    /// <summary>In proportion: raw levels, machine-vision cameras.</summary>
    Linear,
}
