namespace BosFlow.Density;

/// <summary>Density and temperature at one place.</summary>
/// <param name="DensityKgM3">Density, kg/m3.</param>
/// <param name="TemperatureKelvin">Temperature, K; NaN where none is given.</param>
internal readonly record struct GasState(double DensityKgM3, double TemperatureKelvin);
