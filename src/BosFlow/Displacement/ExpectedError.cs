namespace BosFlow.Displacement;

/// <summary>The error that is expected of one component of a vector, px.</summary>
public sealed record ExpectedError
{
    /// <summary>Least standard deviation that the noise of the pictures allows (Cramer-Rao bound), px.</summary>
    public required double Bound { get; init; }

    /// <summary>Random error that the noise of the pictures makes in the engine, px.</summary>
    public required double Noise { get; init; }

    /// <summary>Random error that interpolation makes, px: it differs from window to window and is there without noise too.</summary>
    public required double InterpolationNoise { get; init; }

    /// <summary>Systematic error that interpolation makes, px: root mean square over all fractions of a pixel.</summary>
    public required double InterpolationBias { get; init; }

    /// <summary>Sigma that the engine will state, px: it sees the residuals, and counts the bias of dots of this diameter.</summary>
    public required double Stated { get; init; }

    /// <summary>What interpolation makes, in quadrature, px: common to all frames of a flow at rest.</summary>
    public double Interpolation => Math.Sqrt((InterpolationNoise * InterpolationNoise) + (InterpolationBias * InterpolationBias));

    /// <summary>Root mean square of the true error, px.</summary>
    public double Sigma => Math.Sqrt((Noise * Noise) + (Interpolation * Interpolation));
}
