namespace BosFlow.Speckle;

/// <summary>What a dot looks like before the pixels average it.</summary>
public enum DotShape
{
    /// <summary>A Gaussian spot.</summary>
    Gaussian,

    /// <summary>A uniform disc, as printed, blurred by a Gaussian as by a lens.</summary>
    Disc,
}
