namespace BosFlow.Displacement;

/// <summary>Whether every interrogation window has the same side.</summary>
public enum WindowSizing
{
    /// <summary>Every window has the side that the settings say.</summary>
    Fixed,

    /// <summary>Windows have half that side where they see a displacement which the whole window smears by more than noise explains: at shocks and shear layers.</summary>
    Adaptive,
}
