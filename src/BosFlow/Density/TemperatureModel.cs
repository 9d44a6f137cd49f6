namespace BosFlow.Density;

/// <summary>How temperature follows from density.</summary>
public enum TemperatureModel
{
    /// <summary>Ideal gas at the pressure of the flow and the molar mass of its gas: T = p M / (R rho).</summary>
    IdealGas,

    /// <summary>Not at all: for flows whose pressure is not known, such as those with shocks.</summary>
    None,
}
