namespace BosFlow.Triage;

/// <summary>Compares the figures of a take with what a take needs, and ranks what is wrong by how much it costs.</summary>
/// <remarks>
/// The effect of a fault is how many times lower the error would be without it, about. Where the error follows from the figure it is derived: the Cramer-Rao bound of a window falls as the contrast
/// and the root of the number of dots (<see cref="Displacement.DisplacementErrorModel"/>), and a dot's contrast falls as the square of its diameter where blur spreads the same light. Where it does not
/// follow, the effect is a judgement, said beside it.
/// </remarks>
internal static class FaultSearch
{
    // Dots of 2 to 3 px and ten in a window: common practice. From 2 px down errors depend on the fraction of a pixel; above 5 px light and dots are wasted.
    private const double SmallDot = 2;
    private const double LargeDot = 5;
    private const double GoodDot = 3;
    private const double FewDots = 6;
    private const double GoodDots = 10;
    private const double HopelessDots = 2;

    // A smear beyond half a dot costs a tenth of its contrast and more; the rest are judgements.
    private const double SmearOverDot = 0.75;
    private const double LeastSmear = 1.5;
    private const double Clipped = 0.005; // a twentieth of the area that dots cover on a common board
    private const double MostlyClipped = 0.25;
    private const double LowContrast = 0.12;
    private const double Hunting = 0.1;
    private const double Flicker = 0.03;
    private const double Repeated = 0.01;
    private const double Irregular = 0.2;
    private const double ThinBits = 0.04;
    private const double Blocks = 1.25;
    private const double HighFloor = 0.15;
    private const double HopelessFloor = 0.4;

    // A vibration moves all rows alike in the course of time: their jitter differed by less than a half in takes without stabilisation, by six times in takes with it. Below a tenth of a pixel compression
    // and noise have a share in it.
    private const double JitterOfRows = 0.08;
    private const double HeldRow = 0.35;

    // Interpolation by all fractions of a pixel made 0.028 px2 with a cubic kernel and makes 0.07 with a linear one (derived: the variance of t (1 - t) over t). Compression hides most of it in a picture
    // that stands still, and interpolates by itself where the picture moves: takes without stabilisation had up to 0.07 px2 for each pixel of motion.
    private const double Pulse = 0.0025;
    private const double PulseOfMotion = 0.12;

    public static IReadOnlyList<TriageFinding> Find(TriageRequest request, TimeScan times, TriageMeasures m, IReadOnlyList<FrameReading> frames)
    {
        var found = new List<TriageFinding>();
        Pictures(found, m, frames);
        if (m.PatternShare > 0)
        {
            Dots(found, m);
            Motion(found, m);
            Detail(found, request, m);
        }

        Light(found, m);
        Frames(found, times, m);
        // Equal effects keep the order of this list.
        return [.. found.OrderByDescending(finding => finding.Effect)];
    }

    private static void Pictures(List<TriageFinding> found, TriageMeasures m, IReadOnlyList<FrameReading> frames)
    {
        int failed = frames.Count(frame => frame.Failure is not null);
        if (failed > 0)
            Add(found, TriageFault.Damaged, 1 + (10.0 * failed / frames.Count), 2 * failed > frames.Count, $"{failed} of {frames.Count} sampled frames cannot be decoded ({frames.First(frame => frame.Failure is not null).Failure})", "Copy the file again from the card; if that does not help, check the card and end the recording before the battery does.");
        if (m.PatternShare < 0.2)
            Add(found, TriageFault.NoPattern, 10, m.PatternShare < 0.05, $"Only {m.PatternShare:P0} of the places looked at show a dot pattern.", "Fill the picture with the board, light it, and focus on it.");
        if (m.FoundShare < 0.7)
            Add(found, TriageFault.LostMotion, 3 / Math.Max(m.FoundShare, 0.1), m.FoundShare < 0.3, $"The pattern was found again in {m.FoundShare:P0} of the neighbouring frames only.", "Damp camera and board, shorten the exposure, and look for whatever passes through the view.");
    }

    private static void Dots(List<TriageFinding> found, TriageMeasures m)
    {
        if (m.SharpDotPixels < SmallDot)
            Add(found, TriageFault.SmallDots, Square(GoodDot / m.SharpDotPixels), false, $"A dot is {m.SharpDotPixels:0.0} px wide; below {SmallDot} px displacements are drawn towards whole pixels (peak locking).", "Print dots that come out 2.5 to 3 px wide (bosflow plan tells their size), or go closer.");
        if (m.SharpDotPixels > LargeDot)
            Add(found, TriageFault.Blur, Square(m.SharpDotPixels / GoodDot), false, $"A dot is {m.SharpDotPixels:0.0} px wide in the sharpest frames: out of focus, or printed too large.", "Focus on the board and fix the focus there; if it is sharp, print smaller dots (bosflow plan tells their size).");
        if (m.DotsPerWindow < FewDots)
            Add(found, TriageFault.FewDots, Math.Sqrt(GoodDots / Math.Max(m.DotsPerWindow, 0.1)), m.DotsPerWindow < HopelessDots, $"A window holds {m.DotsPerWindow:0.0} dots; {GoodDots} are wanted.", "Print a denser board (bosflow print --coverage), or measure with larger windows and less resolution.");
    }

    private static void Motion(List<TriageFinding> found, TriageMeasures m)
    {
        const string Remedy = "Switch electronic stabilisation off; it bends the picture by more than the flow does, and no one can take that out again.";
        if (m.Jitter > JitterOfRows && m.LeastJitter < HeldRow * m.Jitter)
            Add(found, TriageFault.Stabilisation, 6, true, $"Rows of the picture shake by {m.Jitter:0.00} px from frame to frame while one stays within {m.LeastJitter:0.00} px: the camera moves its pictures against the shake.", Remedy);
        else if (m.SharpnessPulse > Math.Max(Pulse, PulseOfMotion * Math.Max(m.LeastJitter, m.ShakePerFrame)))
            Add(found, TriageFault.Stabilisation, 6, true, $"Dots change their width from frame to frame ({m.SharpnessPulse:0.000} px² RMS) although the picture moves by {m.ShakePerFrame:0.00} px a frame only: the camera moves and interpolates its pictures itself.", Remedy);
        else if (m.SmearPixels > Math.Max(LeastSmear, SmearOverDot * m.SharpDotPixels))
            Add(found, TriageFault.Smear, Square(1 + (m.SmearPixels / m.SharpDotPixels)), m.SmearPixels > 3 * m.SharpDotPixels, $"Shake drags a dot over {m.SmearPixels:0.0} px while the exposure lasts; the dot itself is {m.SharpDotPixels:0.0} px wide.", "Shorten the exposure (more light, wider aperture or more gain), and damp the mount.");
    }

    private static void Light(List<TriageFinding> found, TriageMeasures m)
    {
        if (m.ClippedHigh > Clipped)
            Add(found, TriageFault.Saturation, 1 + (15 * m.ClippedHigh), m.ClippedHigh > MostlyClipped, $"{m.ClippedHigh:P1} of the pixels are at white: dots are cut off there.", "Expose less, by a third to one stop, until no part of the board is at white.");
        if (m.Contrast < LowContrast)
            Add(found, TriageFault.LowContrast, 3 * LowContrast / Math.Max(m.Contrast, 0.01), false, $"Dots and ground differ by {m.Contrast:P0} of white only.", "More light on the board, a darker ink on a matt paper, less haze and reflection.");
        if (m.ExposureRange > Hunting)
            Add(found, TriageFault.ExposureHunting, 1.3 + (5 * m.ExposureRange), false, $"The light level wanders by {m.ExposureRange:P0} in the course of the take.", "Fix exposure time, gain and white balance by hand.");
        else if (m.Flicker > Flicker)
            Add(found, TriageFault.Flicker, 1.2 + (5 * m.Flicker), false, $"The light level changes by {m.Flicker:P1} RMS from frame to frame.", "Use daylight or lamps that do not flicker, or an exposure of a whole period of the mains.");
    }

    private static void Frames(List<TriageFinding> found, TimeScan times, TriageMeasures m)
    {
        if (m.RepeatedShare > Repeated || times.Missing + times.Lost > 0)
        {
            string missing = times.Missing + times.Lost > 0 ? FormattableString.Invariant($"{times.Missing + times.Lost} frames are missing by the time stamps. ") : "";
            string repeated = m.RepeatedShare > 0 ? FormattableString.Invariant($"{m.RepeatedShare:P1} of the sampled frames repeat the one before.") : "";
            Add(found, TriageFault.LostFrames, 1.5 + (5 * m.RepeatedShare), false, $"{missing}{repeated}", "Use a faster card and a lower frame rate or resolution; keep the camera cool; copy files, do not re-encode them.");
        }

        if (times.IrregularShare > Irregular)
            Add(found, TriageFault.VariableRate, 1.2, false, $"{times.IrregularShare:P0} of the frames do not keep the beat of {times.IntervalSeconds * 1e3:0.0} ms.", "Choose a fixed frame rate in the camera.");
    }

    private static void Detail(List<TriageFinding> found, TriageRequest request, TriageMeasures m)
    {
        if (request.BitsPerPixel < ThinBits || m.Blockiness > Blocks)
            Add(found, TriageFault.Compression, Math.Max(1.5, m.Blockiness), false, $"The file has {request.BitsPerPixel:0.000} bits a pixel and steps at block borders are {m.Blockiness:0.00} times those inside: compression has taken fine detail.", "Set the highest data rate, switch sharpening and noise reduction off, and copy the camera's own file.");
        if (m.NoiseFloor > HighFloor)
            Add(found, TriageFault.HighNoise, 1.1, m.NoiseFloor > HopelessFloor, $"A vector has a noise of {m.NoiseFloor:0.00} px; a good take has 0.01 to 0.03 px.", "Mend what stands above; or measure with larger windows.");
    }

    private static void Add(List<TriageFinding> found, TriageFault fault, double effect, bool fatal, FormattableString sentence, string remedy) =>
        found.Add(new TriageFinding(fault, Math.Max(1, effect), fatal, sentence.ToString(System.Globalization.CultureInfo.InvariantCulture).Replace("  ", " ", StringComparison.Ordinal).Trim(), remedy));

    private static double Square(double value) => value * value;
}
