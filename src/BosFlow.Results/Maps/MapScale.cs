namespace BosFlow.Results.Maps;

/// <summary>Kind of colours for a quantity.</summary>
internal enum MapScale
{
    /// <summary>Magnitudes, from zero.</summary>
    FromZero,

    /// <summary>Signed, symmetric about zero.</summary>
    Signed,

    /// <summary>Densities, between their percentiles.</summary>
    Density,

    /// <summary>Temperatures, between their percentiles.</summary>
    Temperature,
}
