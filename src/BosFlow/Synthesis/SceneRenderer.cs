using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Renders pictures of a dot pattern: every dot's centre is moved analytically, no picture is ever resampled.</summary>
public static class SceneRenderer
{
    /// <summary>The dots where the flow shows them to a camera at rest.</summary>
    /// <param name="pattern">Dots of the undisturbed reference view.</param>
    /// <param name="flow">The flow; null = none.</param>
    /// <param name="cancellationToken">Stops between two dots.</param>
    /// <returns>Displaced dots in the same order.</returns>
    public static Dot[] Displace(IReadOnlyList<Dot> pattern, IFlowField? flow, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        var displaced = new Dot[pattern.Count];
        if (flow is null)
        {
            for (int i = 0; i < displaced.Length; i++)
                displaced[i] = pattern[i];
            return displaced;
        }

        Parallel.For(0, displaced.Length, new ParallelOptions { CancellationToken = cancellationToken }, i =>
        {
            Dot dot = pattern[i];
            FlowSample sample = flow.At(dot.X, dot.Y);
            displaced[i] = dot with { X = dot.X + sample.U, Y = dot.Y + sample.V };
        });
        return displaced;
    }

    /// <summary>Renders one frame of Gaussian dots.</summary>
    /// <param name="displaced">Dots as <see cref="Displace"/> gave them.</param>
    /// <param name="motion">Where the moved camera sees a point of the view at rest.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="dotSigma">Standard deviation of a dot, px.</param>
    /// <param name="sensor">Background, noise, bits.</param>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="frame">Number of the frame.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>The picture in digital numbers.</returns>
    public static GrayImage Render(Dot[] displaced, IPictureMotion motion, int width, int height, double dotSigma, SensorSettings sensor, ulong seed, int frame, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        float[] levels = DotRenderer.Render(Seen(displaced, motion), width, height, dotSigma, sensor.Background, cancellationToken);
        return Sensor.Expose(levels, width, height, sensor, seed, frame, cancellationToken);
    }

    /// <summary>Renders one frame of dots of any shape.</summary>
    /// <param name="displaced">Dots as <see cref="Displace"/> gave them.</param>
    /// <param name="motion">Where the moved camera sees a point of the view at rest.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="speckle">Shape and size of the dots.</param>
    /// <param name="sensor">Background, noise, bits.</param>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="frame">Number of the frame.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>The picture in digital numbers.</returns>
    public static GrayImage Render(Dot[] displaced, IPictureMotion motion, int width, int height, SpeckleSettings speckle, SensorSettings sensor, ulong seed, int frame, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(speckle);
        ArgumentNullException.ThrowIfNull(sensor);
        if (speckle.Shape == DotShape.Gaussian)
            return Render(displaced, motion, width, height, speckle.DotSigmaPixels, sensor, seed, frame, cancellationToken);
        float[] levels = DiscRenderer.Render(Seen(displaced, motion), width, height, speckle.DotDiameterPixels, speckle.DotSigmaPixels, sensor.Background, cancellationToken);
        return Sensor.Expose(levels, width, height, sensor, seed, frame, cancellationToken);
    }

    private static Dot[] Seen(Dot[] displaced, IPictureMotion motion)
    {
        ArgumentNullException.ThrowIfNull(displaced);
        ArgumentNullException.ThrowIfNull(motion);
        var seen = new Dot[displaced.Length];
        for (int i = 0; i < seen.Length; i++)
        {
            Dot dot = displaced[i];
            (double u, double v) = motion.DisplacementAt(dot.X, dot.Y);
            seen[i] = dot with { X = dot.X + u, Y = dot.Y + v };
        }

        return seen;
    }
}
