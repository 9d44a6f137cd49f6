namespace BosFlow.Planning;

/// <summary>A quantity of a rig that can be varied.</summary>
public enum PlanQuantity
{
    /// <summary>Part of the distance from lens to board that lies behind the flow, Z_D / Z_B, 0 to 1; the distance to the board is kept.</summary>
    Split,

    /// <summary>Distance from the lens to the flow, m; the flow's distance to the board is kept.</summary>
    LensToFlow,

    /// <summary>Distance from the flow to the board, m.</summary>
    FlowToBackground,

    /// <summary>f-number, 1.</summary>
    FNumber,

    /// <summary>Focal length, m.</summary>
    FocalLength,

    /// <summary>Diameter of a dot on the paper, m.</summary>
    Dot,

    /// <summary>Exposure, s.</summary>
    Exposure,

    /// <summary>Side of the interrogation window, px, even.</summary>
    Window,

    /// <summary>Noise of a pixel, part of full scale.</summary>
    Noise,
}
