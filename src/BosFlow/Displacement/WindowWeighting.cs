namespace BosFlow.Displacement;

/// <summary>Weight of a pixel within its interrogation window.</summary>
public enum WindowWeighting
{
    /// <summary>Every pixel counts the same.</summary>
    TopHat,

    /// <summary>Gaussian, standard deviation a quarter of the window side.</summary>
    Gaussian,
}
