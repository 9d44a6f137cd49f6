namespace BosFlow.Numerics.Integration;

/// <summary>An iterative solver did not reach its tolerance.</summary>
public sealed class NotConvergedException : ArithmeticException
{
    /// <summary>Says how far the solver came.</summary>
    /// <param name="iterations">Iterations done.</param>
    /// <param name="relativeResidual">Norm of the residual over that of the right-hand side.</param>
    public NotConvergedException(int iterations, double relativeResidual)
        : base(FormattableString.Invariant($"The integration stopped after {iterations} iterations with a relative residual of {relativeResidual:0.0e0}; allow more iterations, or look for sigmas that differ by many orders of magnitude."))
    {
        Iterations = iterations;
        RelativeResidual = relativeResidual;
    }

    /// <summary>Iterations done.</summary>
    public int Iterations { get; }

    /// <summary>Norm of the residual over that of the right-hand side.</summary>
    public double RelativeResidual { get; }
}
