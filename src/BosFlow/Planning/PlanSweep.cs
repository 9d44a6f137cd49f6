using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>Judges a rig over many values of one quantity.</summary>
public static class PlanSweep
{
    /// <summary>Judges every value.</summary>
    /// <param name="request">The rig; its own value of the quantity does not count.</param>
    /// <param name="quantity">What is varied.</param>
    /// <param name="values">Values, in the unit of <see cref="PlanQuantity"/>.</param>
    /// <param name="cancellationToken">Stops between two values.</param>
    /// <returns>One plan for each value, in their order; a value that makes the rig impossible gives the reason.</returns>
    /// <exception cref="ConfigurationException">The gas or the flow cannot be; one sentence for each problem.</exception>
    public static IReadOnlyList<PlanStep> Run(PlanRequest request, PlanQuantity quantity, IReadOnlyList<double> values, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(values);
        PlanContext context = PlanContext.ForMany(request);
        var steps = new List<PlanStep>(values.Count);
        foreach (double value in values)
        {
            cancellationToken.ThrowIfCancellationRequested();
            steps.Add(Step(context, request, quantity, value, cancellationToken));
        }

        return steps;
    }

    /// <summary>A request with another value of one quantity.</summary>
    /// <param name="request">The request.</param>
    /// <param name="quantity">What is set.</param>
    /// <param name="value">Value, in the unit of <see cref="PlanQuantity"/>.</param>
    /// <remarks>A scale measured in the background plane holds for its own distances and lens only: where those change it is left out, and the lens's values count.</remarks>
    public static PlanRequest With(PlanRequest request, PlanQuantity quantity, double value)
    {
        ArgumentNullException.ThrowIfNull(request);
        RigGeometry free = request.Rig with { BackgroundMetresPerPixel = null };
        double distance = request.Rig.LensToFlowMetres + request.Rig.FlowToBackgroundMetres;
        return quantity switch
        {
            PlanQuantity.Split => request with { Rig = free with { LensToFlowMetres = distance * (1 - value), FlowToBackgroundMetres = distance * value } },
            PlanQuantity.LensToFlow => request with { Rig = free with { LensToFlowMetres = value } },
            PlanQuantity.FlowToBackground => request with { Rig = free with { FlowToBackgroundMetres = value } },
            PlanQuantity.FocalLength => request with { Rig = free with { FocalLengthMetres = value } },
            PlanQuantity.FNumber => request with { Rig = request.Rig with { FNumber = value } },
            PlanQuantity.Dot => request with { Board = request.Board with { DotMetres = value } },
            PlanQuantity.Exposure => request with { Camera = request.Camera with { ExposureSeconds = value } },
            PlanQuantity.Noise => request with { Camera = request.Camera with { NoiseOfFullScale = value } },
            PlanQuantity.Window => request with { Displacement = request.Displacement with { WindowPixels = (int)Math.Round(value), SpacingPixels = Spacing(request, value) } },
            _ => throw new ArgumentOutOfRangeException(nameof(quantity)),
        };
    }

    /// <summary>Whether the choice of dots, or the engine, depends on a quantity.</summary>
    internal static bool ChangesErrors(PlanQuantity quantity) => quantity is PlanQuantity.Window or PlanQuantity.Noise;

    /// <summary>The overlap of the windows is kept.</summary>
    private static int Spacing(PlanRequest request, double window) =>
        Math.Clamp((int)Math.Round(window * request.Displacement.SpacingPixels / request.Displacement.WindowPixels), 2, 128);

    private static PlanStep Step(PlanContext context, PlanRequest request, PlanQuantity quantity, double value, CancellationToken cancellationToken)
    {
        try
        {
            PlanRequest varied = With(request, quantity, value);
            PlanContext.ThrowIfWrong(varied);
            return new PlanStep(value, Planner.Judge(ChangesErrors(quantity) ? context.For(varied) : context, varied, cancellationToken), null);
        }
        catch (ConfigurationException problem)
        {
            return new PlanStep(value, null, string.Join(" ", problem.Problems));
        }
    }
}
