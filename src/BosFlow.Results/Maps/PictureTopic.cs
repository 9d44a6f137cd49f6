namespace BosFlow.Results.Maps;

/// <summary>What a picture of a run shows; the report has a section for each.</summary>
public enum PictureTopic
{
    /// <summary>Gradients of the density and knife-edge views.</summary>
    Gradient,

    /// <summary>Density and temperature, their profiles and uncertainty.</summary>
    Density,

    /// <summary>The measured displacement.</summary>
    Displacement,
}
