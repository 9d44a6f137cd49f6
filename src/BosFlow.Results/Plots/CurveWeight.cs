namespace BosFlow.Results.Plots;

/// <summary>How strongly a curve is drawn.</summary>
internal enum CurveWeight
{
    /// <summary>A line with points where they are not too many.</summary>
    Main,

    /// <summary>A line without points.</summary>
    Plain,

    /// <summary>A thin dashed line.</summary>
    Dashed,

    /// <summary>A thin dotted line.</summary>
    Dotted,
}
