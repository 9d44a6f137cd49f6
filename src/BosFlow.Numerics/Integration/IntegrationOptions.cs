namespace BosFlow.Numerics.Integration;

/// <summary>When the iterative solver stops, and how many threads it uses. Results do not depend on the number of threads.</summary>
public sealed record IntegrationOptions
{
    /// <summary>Error at which the solver stops, in the energy norm, relative to that of the start; 0 to 1.</summary>
    public double Tolerance { get; init; } = 1e-9;

    /// <summary>The same for the random probes of <see cref="GradientIntegrator.Sigma"/>, whose own scatter is percents.</summary>
    public double ProbeTolerance { get; init; } = 1e-4;

    /// <summary>Iterations after which the solver gives up; a usual grid needs 15 to 30.</summary>
    public int MaximumIterations { get; init; } = 500;

    /// <summary>Threads, 1 or more.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    internal void Validate()
    {
        if (!(Tolerance is > 0 and < 1) || !(ProbeTolerance is > 0 and < 1))
            throw new ArgumentException("Tolerances of the solver must lie between 0 and 1.");
        if (MaximumIterations < 1 || Threads < 1)
            throw new ArgumentException("The solver needs 1 iteration and 1 thread or more.");
    }
}
