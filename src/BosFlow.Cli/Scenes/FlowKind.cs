namespace BosFlow.Cli.Scenes;

/// <summary>Word for a flow in a scene recipe.</summary>
internal enum FlowKind
{
    /// <summary>The same displacement everywhere.</summary>
    Shift,

    /// <summary>A plane wave.</summary>
    Sinusoid,

    /// <summary>Linear in position.</summary>
    Linear,

    /// <summary>A ray-traced hot jet.</summary>
    Jet,

    /// <summary>A weak lens.</summary>
    Lens,

    /// <summary>A wedge of glass.</summary>
    Wedge,
}
