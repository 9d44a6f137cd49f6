namespace BosFlow.Synthesis;

/// <summary>How the scene's light becomes digital numbers.</summary>
public sealed record SensorSettings
{
    /// <summary>Level between the dots, share of full scale, 0 to 1.</summary>
    public double Background { get; init; } = 0.08;

    /// <summary>Standard deviation of Gaussian noise, percent of full scale, 0 to 50; independent in every pixel and frame.</summary>
    public double NoisePercent { get; init; }

    /// <summary>Electrons at full scale: adds shot noise of variance level / electrons (Gaussian approximation); null = none.</summary>
    public double? FullWellElectrons { get; init; }

    /// <summary>8, 10, 12 or 16 bits, rounded and clipped; 0 = neither rounded nor clipped, on the scale of 8 bits.</summary>
    public int Bits { get; init; } = 8;

    /// <summary>Tone curve: level = light^(1 / Gamma), both as a share of full scale; 1 = linear, 0.2 to 5. Noise comes before it.</summary>
    public double Gamma { get; init; } = 1;

    /// <summary>Digital number at full scale; levels of 10 and 12 bits are spread over 16.</summary>
    public double FullScale => Bits > 8 ? 65535 : 255;

    /// <summary>Bits of a picture file that holds these numbers: 8 or 16.</summary>
    public int PictureBits => Bits > 8 ? 16 : 8;

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        if (!(Background is >= 0 and <= 1))
            problems.Add(FormattableString.Invariant($"The background level is {Background}; it must be 0 to 1 of full scale."));
        if (!(NoisePercent is >= 0 and <= 50))
            problems.Add(FormattableString.Invariant($"The noise is {NoisePercent} %; it must be 0 to 50 % of full scale."));
        if (FullWellElectrons is double electrons && !(electrons >= 10))
            problems.Add(FormattableString.Invariant($"The full well is {electrons} electrons; it must be at least 10."));
        if (Bits is not (0 or 8 or 10 or 12 or 16))
            problems.Add($"The picture has {Bits} bits; it must be 8, 10, 12 or 16, or 0 for unrounded levels.");
        if (!(Gamma is >= 0.2 and <= 5))
            problems.Add(FormattableString.Invariant($"The tone curve has a gamma of {Gamma}; it must be 0.2 to 5."));
        return problems;
    }
}
