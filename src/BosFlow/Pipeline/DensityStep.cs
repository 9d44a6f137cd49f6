using System.Numerics;
using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>The conversion to density within a run, where the case asks for one.</summary>
public static class DensityStep
{
    /// <summary>Refuses what cannot become a density, before any frame is measured.</summary>
    /// <param name="experiment">The case.</param>
    /// <param name="info">Size of the pictures.</param>
    /// <exception cref="ConfigurationException">Rig, gas and flow do not allow it.</exception>
    public static void Check(ExperimentCase experiment, FootageInfo info)
    {
        ArgumentNullException.ThrowIfNull(experiment);
        ArgumentNullException.ThrowIfNull(info);
        if (experiment.Rig is not null && DensityConverter.IsWanted(experiment.Flow))
            DensityConverter.Check(experiment.Rig, experiment.Gas, experiment.Flow, info.Width, info.Height);
    }

    /// <summary>Converts the mean displacement; null where the case asks for no density or has no rig.</summary>
    internal static DensityResult? Convert(RunRequest request, GatheredRun gathered, double biasAmplitude, BackgroundMotionErrors background, CancellationToken cancellationToken)
    {
        ExperimentCase experiment = request.Case;
        if (experiment.Rig is null || !DensityConverter.IsWanted(experiment.Flow))
            return null;
        var asked = new DensityRequest
        {
            Mean = gathered.Statistics,
            Rig = experiment.Rig,
            Gas = experiment.Gas,
            Flow = experiment.Flow,
            Width = request.Footage.Info.Width,
            Height = request.Footage.Info.Height,
            ErrorCorrelation = WindowOverlap.Correlation(experiment.Displacement, gathered.Statistics.Grid.Spacing),
            Bias = Bias(biasAmplitude, gathered.Records, request.Footage.Info),
            Background = background,
            MissingPerFourthDifference = WindowResponse.MissingPerFourthDifference(experiment.Displacement, gathered.Statistics.Grid.Spacing),
            Threads = request.Options.Threads,
        };
        return DensityConverter.Convert(asked, cancellationToken);
    }

    /// <summary>The bias of interpolation as far as the shake of the frames leaves it in the mean; the shift of the picture's middle stands for all of it.</summary>
    private static SubPixelBias Bias(double amplitude, IReadOnlyList<FrameRecord> records, FootageInfo info)
    {
        (Complex u, Complex v) = (Complex.Zero, Complex.Zero);
        int count = 0;
        foreach (FrameRecord record in records.Where(record => record.IsMeasured))
        {
            (double shiftU, double shiftV) = record.Motion.DisplacementAt((info.Width - 1) / 2.0, (info.Height - 1) / 2.0);
            u += Complex.FromPolarCoordinates(1, 2 * Math.PI * shiftU);
            v += Complex.FromPolarCoordinates(1, 2 * Math.PI * shiftV);
            count++;
        }

        return new SubPixelBias(amplitude, u / count, v / count);
    }
}
