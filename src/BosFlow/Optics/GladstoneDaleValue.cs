namespace BosFlow.Optics;

/// <summary>A Gladstone-Dale coefficient with its uncertainty and where it comes from.</summary>
/// <param name="M3PerKg">K, m3/kg.</param>
/// <param name="RelativeSigma">Relative standard uncertainty of K at an exactly known wavelength, 1.</param>
/// <param name="Source">The published source, a few words.</param>
public sealed record GladstoneDaleValue(double M3PerKg, double RelativeSigma, string Source);
