namespace BosFlow.Density;

/// <summary>One input of the conversion with its standard uncertainty.</summary>
/// <param name="Source">What it is, in words.</param>
/// <param name="Input">Value and uncertainty with units, or that none is stated.</param>
/// <param name="Raised">The inputs with this one raised by its standard uncertainty; null where none is stated.</param>
internal sealed record UncertainInput(string Source, string Input, ConversionInputs? Raised);
