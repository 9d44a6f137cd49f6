using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>Measures how the background drifted: the mean picture of every further stretch of flow-off frames is measured against the reference like a frame.</summary>
internal static class DriftMeasurement
{
    /// <summary>Measures the drift.</summary>
    /// <param name="request">The run.</param>
    /// <param name="reference">The reference picture.</param>
    /// <param name="build">Combines the frames of a stretch to its picture.</param>
    /// <param name="processor">Measures a picture against the reference.</param>
    /// <param name="bias">Standard deviation of the bias of interpolation that every sigma holds, px.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    /// <returns>The drift and what is told of it; no drift where no further stretch is given.</returns>
    /// <exception cref="InputDataException">A stretch cannot be laid on the reference.</exception>
    public static (BoardDrift? Drift, IReadOnlyList<BoardDriftFinding> Findings) Measure(
        RunRequest request, Reference reference, Func<ReferenceSource, Reference> build, FrameProcessor processor, double bias, CancellationToken cancellationToken)
    {
        if (request.Reference.Later.Count == 0)
            return (null, []);
        var stretches = new List<DriftStretch> { new(request.Reference.MeanTime, reference.FrameCount, null) };
        var findings = new List<BoardDriftFinding>();
        foreach (ReferenceSource source in request.Reference.Later)
        {
            cancellationToken.ThrowIfCancellationRequested();
            Reference later = build(source);
            FrameResult result = processor.Measure(new Frame(0, double.NaN, source.Description, later.Image, null), cancellationToken);
            if ((result.Failure ?? result.Rejection) is { } failure)
                throw new InputDataException($"The {source.Description} cannot be laid on the reference ({failure}); choose other frames in reference.use_later, or leave the key out.");
            stretches.Add(new DriftStretch(source.MeanTime, later.FrameCount, result.Field));
            findings.Add(Finding(source, later.FrameCount, result.Field, bias, request.Case.Reference.Drift));
        }

        return (request.Case.Reference.Drift == DriftHandling.Remove ? new BoardDrift(stretches, reference.FrameCount) : null, findings);
    }

    // The bias of interpolation, which every sigma counts in full, is nearly gone from means of frames that a shake laid at many fractions of a pixel: noise is what is left.
    private static BoardDriftFinding Finding(ReferenceSource source, int frames, VectorField field, double bias, DriftHandling handling)
    {
        double squares = 0, largest = 0, noise = 0;
        int count = 0;
        for (int node = 0; node < field.Flags.Length; node++)
        {
            if (field.Flags[node] != VectorFlags.None)
                continue;
            double square = (field.U[node] * field.U[node]) + (field.V[node] * field.V[node]);
            squares += square;
            largest = Math.Max(largest, square);
            noise += Math.Max(0, (field.SigmaU[node] * field.SigmaU[node]) - (bias * bias)) + Math.Max(0, (field.SigmaV[node] * field.SigmaV[node]) - (bias * bias));
            count++;
        }

        double perVector = Math.Max(1, count);
        return new BoardDriftFinding(
            source.Description, source.MeanTime, frames, Math.Sqrt(squares / perVector), Math.Sqrt(largest), Math.Sqrt(noise / perVector), handling == DriftHandling.Remove);
    }
}
