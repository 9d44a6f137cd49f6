namespace BosFlow.Triage;

/// <summary>What can be wrong with a take.</summary>
public enum TriageFault
{
    /// <summary>Frames cannot be decoded.</summary>
    Damaged,

    /// <summary>No dot pattern is seen.</summary>
    NoPattern,

    /// <summary>The pattern is not found again from frame to frame.</summary>
    LostMotion,

    /// <summary>Dots are blurred or printed too large.</summary>
    Blur,

    /// <summary>Dots are too small in the picture.</summary>
    SmallDots,

    /// <summary>Too few dots lie in a window.</summary>
    FewDots,

    /// <summary>Dots are dragged out while the exposure lasts.</summary>
    Smear,

    /// <summary>The camera moves its pictures itself.</summary>
    Stabilisation,

    /// <summary>Grey levels are clipped.</summary>
    Saturation,

    /// <summary>Dots differ too little from their ground.</summary>
    LowContrast,

    /// <summary>The exposure changes in the course of the take.</summary>
    ExposureHunting,

    /// <summary>The light flickers from frame to frame.</summary>
    Flicker,

    /// <summary>Frames are missing or repeated.</summary>
    LostFrames,

    /// <summary>The frame rate varies.</summary>
    VariableRate,

    /// <summary>Compression has taken fine detail.</summary>
    Compression,

    /// <summary>Vectors are noisier than a take is worth.</summary>
    HighNoise,
}
