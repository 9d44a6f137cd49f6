using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>Judges many rigs and keeps those within limits.</summary>
/// <param name="context">What they have in common.</param>
/// <param name="request">What does not vary.</param>
/// <param name="limits">What a rig may be.</param>
/// <param name="cancellationToken">Stops between two distances.</param>
internal sealed class PlanSearch(PlanContext context, PlanRequest request, PlanLimits limits, CancellationToken cancellationToken)
{
    private readonly List<PlanCandidate> found = [];
    private PlanViolations? nearest;

    /// <summary>Rigs within the limits, in the order looked at.</summary>
    public IReadOnlyList<PlanCandidate> Found => found;

    /// <summary>Number of rigs looked at.</summary>
    public int Judged { get; private set; }

    /// <summary>What the nearest rig outside the limits violates.</summary>
    public IReadOnlyList<string> Obstacles() => nearest?.Sentences ?? [];

    /// <summary>Looks at all combinations.</summary>
    public void Look(IReadOnlyList<double> lenses, IReadOnlyList<double> numbers, double[] lensToFlow, double[] flowToBackground)
    {
        var rows = new (List<PlanCandidate> Found, PlanViolations? Nearest)[lensToFlow.Length];
        Parallel.For(0, lensToFlow.Length, new ParallelOptions { CancellationToken = cancellationToken }, i => rows[i] = Row(lenses, numbers, lensToFlow[i], flowToBackground));
        Judged += lenses.Count * numbers.Count * lensToFlow.Length * flowToBackground.Length;
        foreach ((List<PlanCandidate> Found, PlanViolations? Nearest) row in rows)
        {
            found.AddRange(row.Found);
            nearest = PlanViolations.Nearer(nearest, row.Nearest);
        }
    }

    private (List<PlanCandidate> Found, PlanViolations? Nearest) Row(IReadOnlyList<double> lenses, IReadOnlyList<double> numbers, double lensToFlow, double[] flowToBackground)
    {
        var kept = new List<PlanCandidate>();
        PlanViolations? closest = null;
        foreach (double flow in flowToBackground)
        {
            foreach (double focal in lenses)
            {
                foreach (double number in numbers)
                {
                    RigGeometry rig = request.Rig with { LensToFlowMetres = lensToFlow, FlowToBackgroundMetres = flow, FocalLengthMetres = focal, FNumber = number, BackgroundMetresPerPixel = null };
                    PlanRequest varied = request with { Rig = rig };
                    PlanViolations before = PlanViolations.OfGeometry(rig, request.Camera, limits, context.Flow);
                    if (before.Count > 0)
                    {
                        closest = PlanViolations.Nearer(closest, before);
                        continue;
                    }

                    PlanPoint point = PlanPoint.Of(context, varied);
                    PlanViolations after = PlanViolations.OfPicture(point, context.Flow);
                    if (after.Count > 0)
                        closest = PlanViolations.Nearer(closest, after);
                    else
                        kept.Add(Candidate(point));
                }
            }
        }

        return (kept, closest);
    }

    private PlanCandidate Candidate(PlanPoint point)
    {
        double number = request.Rig.FNumber!.Value / point.Request.Rig.FNumber!.Value;
        return new PlanCandidate
        {
            Request = point.Request,
            SignalToNoise = context.Flow is null ? 1e-3 * point.PixelsPerRadian / point.Error.Sigma : point.SignalToNoise,
            ResolutionMetres = PlanResponse.Wavelength(context, point.FlowScale, point.FlowBlur, 0.5),
            BoardWidthMetres = point.BoardScale * request.Camera.PictureWidth,
            BoardHeightMetres = point.BoardScale * request.Camera.PictureHeight,
            ViewWidthMetres = point.FlowScale * request.Camera.PictureWidth,
            LightStops = Math.Log2(number * number),
        };
    }
}
