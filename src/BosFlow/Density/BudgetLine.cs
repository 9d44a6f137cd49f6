namespace BosFlow.Density;

/// <summary>One source of uncertainty and what it contributes.</summary>
/// <param name="Source">What is uncertain, in words, for example "distance from flow to background".</param>
/// <param name="Input">Value and standard uncertainty of the input with units, for example "800 mm ± 5 mm"; "not stated" where the case gives none.</param>
/// <param name="DensityKgM3">Its contribution to the standard uncertainty of the density at the place of the budget, kg/m3; 0 where not stated.</param>
/// <param name="TemperatureKelvin">Its contribution to the standard uncertainty of the temperature there, K; NaN where no temperature is given.</param>
/// <param name="IsStated">Whether an uncertainty is known for it; false = it is missing in the total.</param>
public sealed record BudgetLine(string Source, string Input, double DensityKgM3, double TemperatureKelvin, bool IsStated);
