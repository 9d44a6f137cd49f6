namespace BosFlow.Planning;

/// <summary>What should be changed in a plan.</summary>
internal sealed class PlanWarnings
{
    private const double SmallestImagePixels = 2;
    private const double LargestImagePixels = 5;
    private const double FewestDots = 8;
    private const double LargestStrain = 0.1;
    private const double QuarterWindow = 0.25;
    private const double SomeMotionPixels = 0.05;

    private readonly PlanResult result;
    private readonly PlanContext context;
    private readonly PlanPoint point;
    private readonly PlanAdvice advice;
    private readonly List<PlanWarning> warnings = [];

    private PlanWarnings(PlanResult result, PlanContext context, PlanPoint point, PlanAdvice advice)
    {
        this.result = result;
        this.context = context;
        this.point = point;
        this.advice = advice;
    }

    /// <summary>All warnings, most important first.</summary>
    public static IReadOnlyList<PlanWarning> Of(PlanResult result, PlanContext context, PlanPoint point, PlanAdvice advice)
    {
        var list = new PlanWarnings(result, context, point, advice);
        list.Signal();
        list.Range();
        list.Structure();
        list.Board();
        list.Dots();
        list.Sharpness();
        list.Motion();
        return list.warnings;
    }

    private PlanRequest Request => result.Request;

    private double Pitch => Request.Rig.PixelPitchMetres!.Value;

    private void Signal()
    {
        if (result.Flow is not { } flow || flow.OneFrame == Detectability.Good)
            return;
        string verdict = flow.OneFrame == Detectability.Hopeless ? "will not be seen in one frame" : "will be seen in one frame but hardly measured";
        string mean = flow.Mean == Detectability.Hopeless ? "nor in the mean" : FormattableString.Invariant($"the mean of {Request.FlowFrames} frames has {flow.MeanSignalToNoise:F1}");
        string best = PlanLevers.Best(context, point, advice);
        Add(
            FormattableString.Invariant($"The flow {verdict}: {flow.MeasuredPixels:G2} px are {flow.SignalToNoise:F1} times the noise of {result.NoisePixels:G2} px ({mean})."),
            best.Length > 0 ? Capital(best) + "." : "No single change helps by more than a tenth; change several: distances, lens, window.");
    }

    private void Range()
    {
        if (result.Flow is not { } flow)
            return;
        int coarse = Request.Displacement.CoarseWindowPixels;
        if (flow.DisplacementPixels > QuarterWindow * coarse)
            Add(
                FormattableString.Invariant($"The displacement of {flow.DisplacementPixels:F1} px is beyond a quarter of the coarse window of {coarse} px."),
                FormattableString.Invariant($"Bring the board nearer than {1e3 * BoardFor(QuarterWindow * coarse / flow.DisplacementPixels):F0} mm to the flow, or use a larger coarse_window_px (up to 128)."));
        if (flow.StrainPerPixel > LargestStrain)
            Add(
                FormattableString.Invariant($"The displacement changes by {flow.StrainPerPixel:F2} px a pixel; beyond {LargestStrain} dots smear and windows lose their match."),
                FormattableString.Invariant($"Bring the board nearer than {1e3 * BoardFor(LargestStrain / flow.StrainPerPixel):F0} mm to the flow, or look at the flow from nearer with smaller dots."));
    }

    private void Structure()
    {
        double finest = advice.Finest;
        bool isAsked = Request.FinestStructureMetres is not null || context.Flow is not null;
        if (isAsked && result.FlowBlurMetres > finest / PlanAdvice.WavelengthsPerBlur)
            Add(
                FormattableString.Invariant($"The aperture blurs the flow over {1e3 * result.FlowBlurMetres:F2} mm; a structure of {1e3 * finest:F2} mm is measured fully only up to {1e3 * finest / PlanAdvice.WavelengthsPerBlur:F2} mm."),
                FormattableString.Invariant($"Stop down to f/{advice.ForBlur:F1}, or move the board to where the blur shrinks: nearer to the flow.") + (advice.ForBlur > advice.ForDiffraction ? FormattableString.Invariant($" Diffraction allows f/{advice.ForDiffraction:F1}: f/{advice.FNumber:G3} is the middle way.") : string.Empty));
        if (isAsked && result.HalfResponseWavelengthMetres > 2 * finest)
            Add(
                FormattableString.Invariant($"Windows and blur resolve {1e3 * result.HalfResponseWavelengthMetres:F2} mm (half response); a structure of {1e3 * finest:F2} mm is averaged away."),
                FormattableString.Invariant($"Use windows of {Math.Max(8, 2 * (int)(Request.Displacement.WindowPixels * finest / result.HalfResponseWavelengthMetres)):F0} px, or look from nearer."));
    }

    private void Board()
    {
        PlannedBoard board = Request.Board;
        Side("width", board.WidthMetres, result.ViewAtBoard.Width);
        Side("height", board.HeightMetres, result.ViewAtBoard.Height);
        if (context.Flow is not { } flow)
            return;
        // What is seen of the board beside the flow: the flow plane's part of it.
        double seen = Math.Min(result.ViewAtFlow.Width, (board.WidthMetres ?? double.PositiveInfinity) * result.ViewAtFlow.Width / result.ViewAtBoard.Width);
        double margin = (seen / 2) - flow.ExtentMetres;
        double needed = 2 * Request.Displacement.WindowPixels * point.FlowScale;
        if (margin < needed && context.Flow.Profile.IsOdd)
            Add(
                FormattableString.Invariant($"Beside the flow, {2e3 * flow.ExtentMetres:F0} mm wide, {(margin > 0 ? 1e3 * margin : 0):F0} mm of quiet pattern are left on either side; to take out the camera's motion and to know the surroundings it takes two windows, {1e3 * needed:F0} mm."),
                FormattableString.Invariant($"Make view and board at least {2e3 * (flow.ExtentMetres + needed) * result.ViewAtBoard.Width / result.ViewAtFlow.Width:F0} mm wide at the board ({2e3 * (flow.ExtentMetres + needed):F0} mm at the flow)."));
    }

    private void Side(string name, double? has, double view)
    {
        if (has is double length && length < view)
            Add(
                FormattableString.Invariant($"The board's {name} of {1e3 * length:F0} mm does not fill the view of {1e3 * view:F0} mm."),
                FormattableString.Invariant($"Print it {1e3 * view:F0} mm in {name}, or take a lens of {1e3 * Request.Rig.FocalLengthMetres!.Value * view / length:G3} mm."));
    }

    private void Dots()
    {
        double image = result.DotImagePixels;
        string print = FormattableString.Invariant($"Print dots of {1e3 * result.RecommendedDotMetres:G3} mm.");
        if (image < SmallestImagePixels)
            Add(FormattableString.Invariant($"A dot's image has {image:F1} px; below {SmallestImagePixels} px displacements lean towards whole pixels."), print);
        else if (image > LargestImagePixels && result.DotMetres > 1.2 * result.RecommendedDotMetres)
            Add(FormattableString.Invariant($"A dot's image has {image:F1} px; above {LargestImagePixels} px the windows hold fewer dots than they could."), print);
        else if (image > LargestImagePixels)
            Add(FormattableString.Invariant($"Blur makes a dot's image {image:F1} px large whatever its size."), FormattableString.Invariant($"Open the aperture to f/{Math.Min(advice.ForDiffraction, Request.Rig.FNumber!.Value):F1} if diffraction is the cause, or focus on the board."));
        if (result.DotsPerWindow < FewestDots)
            Add(
                FormattableString.Invariant($"A window of {Request.Displacement.WindowPixels} px holds {result.DotsPerWindow:F1} dots; below {FewestDots} the noise grows and windows fail."),
                FormattableString.Invariant($"{print[..^1]}, or use windows of {2 * (int)Math.Ceiling(Request.Displacement.WindowPixels * Math.Sqrt(FewestDots / result.DotsPerWindow) / 2)} px."));
    }

    private void Sharpness()
    {
        double spot = Optics.DotImage.SpotShare * result.DiffractionSpotMetres / Pitch;
        if (spot > PlanAdvice.LargestSpotPixels)
            Add(
                FormattableString.Invariant($"Diffraction spreads a point over {spot:F1} px."),
                FormattableString.Invariant($"Open the aperture to f/{advice.ForDiffraction:F1}; dots as recommended allow for it, with more noise."));
        double half = Request.Board.DepthMetres / 2;
        (double near, double far) = result.DepthOfField;
        double distance = point.BoardDistance;
        if (result.BoardConfusionMetres > Pitch)
            Add(
                FormattableString.Invariant($"The lens is focused on {1e3 * result.FocusMetres:F0} mm; the board at {1e3 * distance:F0} mm is blurred by {result.BoardConfusionMetres / Pitch:F1} px."),
                FormattableString.Invariant($"Focus on the board, {1e3 * distance:F0} mm."));
        else if (half > 0 && (distance - half < near || distance + half > far))
            Add(
                FormattableString.Invariant($"The board is {2e3 * half:F0} mm deep, but sharp to 1 px is only what lies {1e3 * near:F0} to {1e3 * far:F0} mm from the lens."),
                FormattableString.Invariant($"Stop down to f/{advice.ForDepth:F1}, or make the board flatter and square to the view."));
    }

    private void Motion()
    {
        if (result.VibrationSmearPixels > PlanAdvice.LargestSmearPixels)
            Add(
                FormattableString.Invariant($"Vibration smears the picture by {result.VibrationSmearPixels:F2} px within the exposure; {PlanAdvice.LargestSmearPixels} px is the most."),
                FormattableString.Invariant($"Expose no longer than {1e3 * advice.ForVibration:G2} ms, or isolate the camera."));
        if (result.Flow?.SmearPixels > PlanAdvice.LargestFlowMotionWindows * Request.Displacement.WindowPixels)
            Add(
                FormattableString.Invariant($"The flow moves {result.Flow.SmearPixels:F0} px within the exposure; eddies are averaged over more than half a window of {Request.Displacement.WindowPixels} px."),
                FormattableString.Invariant($"Expose no longer than {1e3 * advice.ForFlow:G2} ms, or measure the mean alone."));
        if (result.RowSkewPixels > SomeMotionPixels)
            Add(
                FormattableString.Invariant($"Within one readout the vibration has {result.PeriodsPerReadout:G2} periods and moves rows by up to {result.RowSkewPixels:F2} px against each other; no motion of a whole frame takes that out."),
                FormattableString.Invariant($"Use a camera with a global shutter, isolate it (to {1e3 * Request.Camera.VibrationRadians!.Value * SomeMotionPixels / result.RowSkewPixels!.Value:G2} mrad), or lay the rows along the flow."));
    }

    /// <summary>Distance from flow to board at which the displacement is a part of what it is: it goes as Z_D / Z_B.</summary>
    private double BoardFor(double part)
    {
        double split = part * Request.Rig.FlowToBackgroundMetres / point.BoardDistance;
        return Request.Rig.LensToFlowMetres * split / (1 - split);
    }

    private void Add(string sentence, string remedy) => warnings.Add(new PlanWarning(sentence, remedy));

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
