namespace BosFlow.Density;

/// <summary>One check of the data against what the conversion assumes.</summary>
/// <param name="Name">What is checked, in words.</param>
/// <param name="Value">The figure.</param>
/// <param name="Unit">Its unit; "1" where it has none.</param>
/// <param name="Expected">What sound data give, in words, for example "about 1".</param>
/// <param name="Passes">Whether the figure is what sound data give.</param>
public sealed record DataCheck(string Name, double Value, string Unit, string Expected, bool Passes);
