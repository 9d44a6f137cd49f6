using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>The size of a disc's sharp image that suits a blur: of those whose image has 2.4 to 3.2 px the one with the least expected error.</summary>
/// <remarks>
/// Which is best depends on the blur, because the error of interpolation changes its sign between sizes. A disc smaller than its blur only loses contrast, so that behind a large blur the choice is among discs of 1 to
/// 1.3 times the blur (judgement). The blur counts in steps of a twentieth of a pixel, so that many rigs share one choice.
/// </remarks>
internal sealed class RecommendedDisc
{
    private const double Step = 0.05;
    private const int Tabled = 200;
    private const double SmallestImage = 2.4;
    private const double ImageStep = 0.1;
    private const int Images = 9;
    private const int Wider = 4;

    private readonly PlanRequest request;
    private readonly Lazy<double>[] choices;

    /// <summary>Prepares the choice for a board, its noise and an engine.</summary>
    public RecommendedDisc(PlanRequest request)
    {
        this.request = request;
        choices = [.. Enumerable.Range(0, Tabled).Select(i => new Lazy<double>(() => Best(i * Step)))];
    }

    /// <summary>The disc, px.</summary>
    /// <param name="blur">e^-2 diameter of the blur, px.</param>
    public double For(double blur)
    {
        int i = (int)Math.Round(blur / Step);
        return i < Tabled ? choices[i].Value : blur;
    }

    /// <summary>The pattern of a request for a disc and a blur.</summary>
    public static ExpectedPattern Pattern(PlanRequest request, double disc, double blur) => new()
    {
        DiscPixels = disc,
        BlurPixels = blur,
        Coverage = request.Board.Coverage,
        Contrast = request.Board.Contrast,
        Noise = request.Camera.NoiseOfFullScale,
        ReferenceFrames = request.ReferenceFrames,
    };

    private double Best(double blur) =>
        Discs(blur).MinBy(disc => DisplacementErrorModel.Of(Pattern(request, disc, blur), request.Displacement).Sigma);

    private static IEnumerable<double> Discs(double blur)
    {
        double[] discs = [.. Enumerable.Range(0, Images).Select(i => DotImage.DiscFor(SmallestImage + (ImageStep * i), blur) ?? 0).Where(disc => disc >= blur)];
        return discs.Length > 0 ? discs : Enumerable.Range(0, Wider).Select(i => blur * (1 + (ImageStep * i)));
    }
}
