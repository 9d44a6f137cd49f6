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

    /// <summary>A slab of gas with a linear density.</summary>
    SlabGradient,

    /// <summary>A Gaussian stripe in a slab of gas.</summary>
    SlabStripe,

    /// <summary>A round Gaussian blob in a slab of gas.</summary>
    SlabBlob,

    /// <summary>The oblique shock of a wedge in a slab of gas.</summary>
    Shock,
}
