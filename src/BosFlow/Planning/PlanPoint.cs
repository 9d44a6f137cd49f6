using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>The numbers of one rig on which everything else of a plan rests.</summary>
internal sealed record PlanPoint
{
    /// <summary>What was judged.</summary>
    public required PlanRequest Request { get; init; }

    /// <summary>Scale in the plane of the board, m/px.</summary>
    public required double BoardScale { get; init; }

    /// <summary>Scale in the plane of the flow, m/px.</summary>
    public required double FlowScale { get; init; }

    /// <summary>Magnification of the board, 1.</summary>
    public required double Magnification { get; init; }

    /// <summary>Displacement for 1 rad, px.</summary>
    public required double PixelsPerRadian { get; init; }

    /// <summary>Geometric blur in the flow plane, m.</summary>
    public required double FlowBlur { get; init; }

    /// <summary>Distance focused on, m.</summary>
    public required double Focus { get; init; }

    /// <summary>Diffraction spot, m on the sensor.</summary>
    public required double Spot { get; init; }

    /// <summary>Circle of confusion of the board, m on the sensor.</summary>
    public required double BoardConfusion { get; init; }

    /// <summary>All blur of a dot, e^-2 diameter, px.</summary>
    public required double BlurPixels { get; init; }

    /// <summary>Diameter of a dot recommended, m.</summary>
    public required double RecommendedDot { get; init; }

    /// <summary>Diameter of a dot planned with, m.</summary>
    public required double Dot { get; init; }

    /// <summary>Expected error of a vector.</summary>
    public required ExpectedError Error { get; init; }

    /// <summary>Part of the flow's largest deflection that is measured; 1 where no flow is expected.</summary>
    public required double Response { get; init; }

    /// <summary>Largest displacement measured, px; 0 where no flow is expected.</summary>
    public required double Measured { get; init; }

    /// <summary>Lens to board, m.</summary>
    public double BoardDistance => Request.Rig.LensToFlowMetres + Request.Rig.FlowToBackgroundMetres;

    /// <summary>Measured displacement over the noise of one frame.</summary>
    public double SignalToNoise => Measured / Error.Sigma;

    /// <summary>Noise of the mean of all frames, px.</summary>
    /// <remarks>Of the noise's variance the share 1 / (n + 1) is the reference's of n frames and common to all frames, as is the error of interpolation.</remarks>
    public double MeanNoise
    {
        get
        {
            double common = 1.0 / (Request.ReferenceFrames + 1);
            double variance = Error.Noise * Error.Noise * (common + ((1 - common) / Request.FlowFrames));
            return Math.Sqrt(variance + (Error.Interpolation * Error.Interpolation));
        }
    }

    /// <summary>Judges a rig.</summary>
    /// <param name="context">What the rigs have in common.</param>
    /// <param name="request">The rig, already checked.</param>
    public static PlanPoint Of(PlanContext context, PlanRequest request)
    {
        RigGeometry rig = request.Rig;
        double f = rig.FocalLengthMetres!.Value;
        double pitch = rig.PixelPitchMetres!.Value;
        double number = rig.FNumber!.Value;
        double distance = rig.LensToFlowMetres + rig.FlowToBackgroundMetres;
        double boardScale = rig.BackgroundMetresPerPixel ?? ThinLens.BackgroundMetresPerPixel(f, distance, pitch);
        double magnification = pitch / boardScale;
        double focus = request.Camera.FocusMetres ?? distance;
        double spot = Diffraction.SpotDiameter(number, request.Gas.WavelengthMetres, magnification);
        double confusion = Defocus.CircleOfConfusion(f, number, focus, distance);
        double blur = DotImage.Diameter(0, spot, confusion) / pitch;
        double recommended = boardScale * context.Discs.For(blur);
        double dot = request.Board.DotMetres ?? recommended;
        ExpectedError error = DisplacementErrorModel.Of(RecommendedDisc.Pattern(request, dot / boardScale, blur), request.Displacement);
        double flowScale = boardScale * rig.LensToFlowMetres / distance;
        double flowBlur = ThinLens.FlowPlaneBlur(f, number, rig.LensToFlowMetres, rig.FlowToBackgroundMetres);
        double perRadian = rig.FlowToBackgroundMetres / boardScale;
        double response = context.Flow is { } flow ? PlanResponse.Of(context, flow, request.Displacement, flowScale, flowBlur) : 1;
        return new PlanPoint
        {
            Request = request,
            BoardScale = boardScale,
            FlowScale = flowScale,
            Magnification = magnification,
            PixelsPerRadian = perRadian,
            FlowBlur = flowBlur,
            Focus = focus,
            Spot = spot,
            BoardConfusion = confusion,
            BlurPixels = blur,
            RecommendedDot = recommended,
            Dot = dot,
            Error = error,
            Response = response,
            Measured = context.Flow is { } seen ? seen.PeakRadians * perRadian * response : 0,
        };
    }
}
