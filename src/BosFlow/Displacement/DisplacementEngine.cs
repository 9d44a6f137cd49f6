using System.Collections.Concurrent;
using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;
using BosFlow.Registration;

namespace BosFlow.Displacement;

/// <summary>
/// Measures the displacement of the pattern between one reference and many frames: a coarse FFT correlation pass, then
/// passes in which the frame is deformed back onto the reference and the remaining shift of every window is measured.
/// </summary>
/// <remarks>
/// What depends on the reference alone is computed once, in the constructor. Safe for several threads: each call takes
/// working memory of its own, and its result does not depend on what other threads do. Working memory is about 12 bytes
/// a pixel a concurrent call; the reference takes about 25 bytes a pixel (levels, derivatives and weights, their packed copy, spectra of the first pass).
/// </remarks>
public sealed class DisplacementEngine
{
    private readonly ReferenceTexture texture;
    private readonly CoarseReference coarse;
    private readonly ReferenceWindows windows;
    private readonly BlockReference? blocks;
    private readonly HalfWindows? half;
    private readonly ShapeSolver? shape;
    private readonly StatedSigma sigma;
    private readonly KnownBias bias;
    private readonly DisplacementSettings settings;
    private readonly FineSpline? underlying;
    private readonly ConcurrentBag<FrameMeasurement> idle = [];
    private readonly ConcurrentBag<VectorField> spent = [];

    /// <summary>Prepares everything that depends on the reference.</summary>
    /// <param name="reference">Reference picture, digital numbers; NaN pixels are masked.</param>
    /// <param name="measurable">Pixels that may be used; same size as the reference.</param>
    /// <param name="settings">Settings; checked here.</param>
    /// <param name="underlying">The reference more finely than its pixels; with it the error of interpolation is measured in every frame, and taken off. Null where it is not known.</param>
    /// <param name="frames">Number of frames that were combined in the reference, at least 1: how noisy a frame is beside it.</param>
    /// <exception cref="ConfigurationException">A setting is out of its range; every problem is listed.</exception>
    /// <exception cref="InputDataException">The picture is smaller than one window.</exception>
    /// <exception cref="ArgumentException">The mask or the finer picture has another size.</exception>
    public DisplacementEngine(GrayImage reference, PixelMask measurable, DisplacementSettings settings, FineSpline? underlying = null, int frames = 1)
        : this(reference, measurable, settings, underlying, frames, null)
    {
    }

    /// <summary>The same for a part of a larger picture, whose sampling is known.</summary>
    internal DisplacementEngine(GrayImage reference, PixelMask measurable, DisplacementSettings settings, FineSpline? underlying, int frames, ReferenceSampling? sampling)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(measurable);
        ArgumentNullException.ThrowIfNull(settings);
        if (measurable.Width != reference.Width || measurable.Height != reference.Height)
            throw new ArgumentException("The mask needs the size of the reference.", nameof(measurable));
        if (underlying is not null && (underlying.Width != reference.Width || underlying.Height != reference.Height))
            throw new ArgumentException("The finer picture needs the size of the reference.", nameof(underlying));
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        this.settings = settings;
        this.underlying = underlying;
        WindowLayout layout = Layout(reference.Width, reference.Height, settings);
        texture = new ReferenceTexture(reference, measurable, sampling ?? ReferenceSampling.Of(reference, measurable, new MatchConditions { Frames = frames, Interpolation = settings.Interpolation, IsMeasured = underlying is not null }));
        coarse = new CoarseReference(texture, settings.CoarseWindowPixels, settings.CoarseSpacingPixels);
        windows = ReferenceWindows.Build(texture, layout, settings.Weighting);
        if (settings.SubPixel == SubPixelMethod.LeastSquares && BlockLayout.Of(layout, settings.Weighting, settings.Windows, settings.Shape) is { } blockLayout)
        {
            blocks = new BlockReference(texture, windows, blockLayout, settings);
            half = settings.Windows == WindowSizing.Adaptive ? new HalfWindows(texture, windows, blocks) : null;
            shape = ShapeSolver.Of(windows, blocks, settings.Shape);
        }

        DotPixels = ApparentDot.Diameter(reference, measurable);
        bias = KnownBias.Of(texture.Sampling, DotPixels, settings, underlying is not null);
        sigma = new StatedSigma(settings, windows, shape, texture.GradientNoise, bias.RestAmplitude);
    }

    /// <summary>Centres of the final windows, px of the reference.</summary>
    public NodeGrid Grid => windows.Layout.Grid;

    /// <summary>e^-2 diameter of the dots in the reference, px, the pixel's own width included; NaN where it shows none.</summary>
    public double DotPixels { get; }

    /// <summary>The dots of the reference, and what interpolation makes of displacements for them.</summary>
    public SamplingFacts Sampling => new() { DotPixels = double.IsNaN(DotPixels) ? null : DotPixels, BiasTakenOffU = bias.Amplitude.X, BiasTakenOffV = bias.Amplitude.Y, BiasLeft = bias.RestAmplitude };

    /// <summary>Amplitude of the wave of the fraction of a pixel that interpolation leaves in a displacement, px, as dots of that diameter have it.</summary>
    public double BiasAmplitudePixels => bias.RestAmplitude;

    /// <summary>Centres of the final windows that a picture of a given size has, px.</summary>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="settings">Settings; checked here.</param>
    /// <exception cref="ConfigurationException">A setting is out of its range; every problem is listed.</exception>
    /// <exception cref="InputDataException">The picture is smaller than one window.</exception>
    public static NodeGrid GridOf(int width, int height, DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return Layout(width, height, settings).Grid;
    }

    /// <summary>Measures one frame.</summary>
    /// <param name="frame">Flow frame of the reference's size, grey levels on any linear scale; NaN pixels are masked.</param>
    /// <param name="predictor">Expected motion of the background; the search starts from it. It remains in the result.</param>
    /// <param name="cancellationToken">Stops between two rows of pixels.</param>
    /// <returns>Total displacement (motion and flow) at every node, px, with 1-sigma and flags.</returns>
    /// <exception cref="ArgumentException">The frame has another size than the reference.</exception>
    public VectorField Measure(GrayImage frame, IPictureMotion predictor, CancellationToken cancellationToken) => Measure(frame, predictor, 1, cancellationToken);

    /// <summary>Measures one frame with several threads. Many frames are better measured side by side, one thread each.</summary>
    /// <param name="frame">Flow frame of the reference's size, grey levels on any linear scale; NaN pixels are masked.</param>
    /// <param name="predictor">Expected motion of the background; the search starts from it. It remains in the result.</param>
    /// <param name="threads">Threads that may work at once, the caller's included, at least 1. The result does not depend on it.</param>
    /// <param name="cancellationToken">Stops between two parts of the picture.</param>
    /// <returns>Total displacement (motion and flow) at every node, px, with 1-sigma and flags.</returns>
    /// <exception cref="ArgumentException">The frame has another size than the reference.</exception>
    public VectorField Measure(GrayImage frame, IPictureMotion predictor, int threads, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(threads, 1);
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(predictor);
        if (frame.Width != texture.Width || frame.Height != texture.Height)
            throw new ArgumentException($"The frame is {frame.Width} x {frame.Height} px, the reference {texture.Width} x {texture.Height}.", nameof(frame));
        if (!idle.TryTake(out FrameMeasurement? measurement))
            measurement = new FrameMeasurement(texture, coarse, windows, blocks, half, shape, sigma, bias, settings, underlying);
        using FrameThreads? several = threads == 1 ? null : new FrameThreads(threads);
        spent.TryTake(out VectorField? room);
        VectorField field = measurement.Measure(frame, predictor, room, several ?? FrameThreads.One, cancellationToken);
        idle.Add(measurement);
        return field;
    }

    /// <summary>Takes a result back that nobody reads any more: the next one is written over it, so that a long run allocates no memory for its results.</summary>
    /// <param name="field">A field that <see cref="Measure(GrayImage, IPictureMotion, CancellationToken)"/> gave, or one of the same grid; not used by the caller from now on.</param>
    public void Reuse(VectorField field)
    {
        ArgumentNullException.ThrowIfNull(field);
        if (FieldOutput.Fits(field, Grid, settings))
            spent.Add(field);
    }

    private static WindowLayout Layout(int width, int height, DisplacementSettings settings)
    {
        IReadOnlyList<string> problems = DisplacementSettingsCheck.Problems(settings);
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
        return WindowLayout.Fill(width, height, settings.WindowPixels, settings.SpacingPixels);
    }
}
