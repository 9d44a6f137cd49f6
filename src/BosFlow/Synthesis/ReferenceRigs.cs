using BosFlow.Optics;

namespace BosFlow.Synthesis;

/// <summary>Two rigs at the far ends of what the program is used for.</summary>
public static class ReferenceRigs
{
    /// <summary>A bench: f = 50 mm at f/11, 1 m from the flow, the board 1 m behind it, pixels of 3.45 um; 0.0673 mm/px in the flow plane, 7432 px of displacement for a radian of deflection.</summary>
    public static RigGeometry Laboratory { get; } = new()
    {
        LensToFlowMetres = 1,
        FlowToBackgroundMetres = 1,
        FocalLengthMetres = 50e-3,
        PixelPitchMetres = 3.45e-6,
        FNumber = 11,
    };

    /// <summary>A small wide-angle camera on a vehicle: f = 3 mm at f/2.5, 0.6 m from the flow, the board 0.4 m behind it, pixels of 1.55 um; 0.3091 mm/px in the flow plane, 777 px for a radian.</summary>
    public static RigGeometry Onboard { get; } = new()
    {
        LensToFlowMetres = 0.6,
        FlowToBackgroundMetres = 0.4,
        FocalLengthMetres = 3e-3,
        PixelPitchMetres = 1.55e-6,
        FNumber = 2.5,
    };
}
