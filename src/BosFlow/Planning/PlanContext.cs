using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>What many rigs of one plan have in common: gas, flow and engine. Immutable; safe to use from several threads.</summary>
internal sealed record PlanContext
{
    // Burnt gas and air: there the temperature alone makes the density (molar masses within 1 %).
    private const double AlikeGases = 0.05;

    /// <summary>The gas.</summary>
    public required GasProperties Gas { get; init; }

    /// <summary>Whether a temperature follows from a density.</summary>
    public required bool HasTemperature { get; init; }

    /// <summary>The flow's optics; null where none is expected.</summary>
    public required FlowOptics? Flow { get; init; }

    /// <summary>The engine's response.</summary>
    public required EngineResponse Engine { get; init; }

    /// <summary>Which dots suit a blur.</summary>
    public required RecommendedDisc Discs { get; init; }

    /// <summary>Prepares a request.</summary>
    /// <exception cref="ConfigurationException">Gas, flow or a setting cannot be; one sentence for each problem.</exception>
    public static PlanContext Of(PlanRequest request)
    {
        ThrowIfWrong(request);
        return ForMany(request);
    }

    /// <summary>Prepares what requests that differ in their rig have in common; each is to be checked by <see cref="ThrowIfWrong"/>.</summary>
    /// <exception cref="ConfigurationException">Gas or flow cannot be; one sentence for each problem.</exception>
    public static PlanContext ForMany(PlanRequest request)
    {
        GasProperties gas = GasProperties.Of(request.Gas);
        return new PlanContext
        {
            Gas = gas,
            HasTemperature = gas.AmbientTemperature is not null && gas.FlowMolarMass is double flow && gas.AmbientMolarMass is double ambient && Math.Abs((flow / ambient) - 1) < AlikeGases,
            Flow = request.Flow is null ? null : FlowOpticsFactory.Of(request.Flow, request.Gas),
            Engine = new EngineResponse(request.Displacement),
            Discs = new RecommendedDisc(request),
        };
    }

    /// <summary>Refuses a rig that cannot be.</summary>
    /// <exception cref="ConfigurationException">One sentence for each problem.</exception>
    public static void ThrowIfWrong(PlanRequest request)
    {
        IReadOnlyList<string> problems = [.. PlanCheck.Problems(request), .. DisplacementSettingsCheck.Problems(request.Displacement)];
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
    }

    /// <summary>The same gas and flow for a request of another engine, board or noise.</summary>
    public PlanContext For(PlanRequest request) => this with { Engine = new EngineResponse(request.Displacement), Discs = new RecommendedDisc(request) };
}
