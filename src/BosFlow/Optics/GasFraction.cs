namespace BosFlow.Optics;

/// <summary>One gas of a mixture.</summary>
/// <param name="Name">Name in <see cref="KnownGas"/>, for example "carbon dioxide".</param>
/// <param name="MoleFraction">Share of the molecules, 0 to 1.</param>
public sealed record GasFraction(string Name, double MoleFraction);
