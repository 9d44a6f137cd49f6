namespace BosFlow.Planning;

/// <summary>Changes that raise the ratio of signal to noise, tried one by one.</summary>
internal static class PlanLevers
{
    private const int Named = 2;
    private const double WorthWhile = 1.1;

    /// <summary>The two changes that help most, in words with their gain; empty where none helps by a tenth.</summary>
    public static string Best(PlanContext context, PlanPoint point, PlanAdvice advice)
    {
        PlanRequest request = point.Request;
        double now = point.SignalToNoise;
        var tried = new List<(double Gain, string Words)>();
        double distance = request.Rig.FlowToBackgroundMetres;
        double focal = request.Rig.FocalLengthMetres!.Value;
        double split = distance / point.BoardDistance;
        int window = request.Displacement.WindowPixels;
        Try(PlanQuantity.FlowToBackground, 2 * distance, $"move the board to {Mm(2 * distance)} behind the flow (its view grows too)");
        if (split < 0.6)
            Try(PlanQuantity.Split, 0.7, $"move flow and camera together so that the flow is {Mm(0.3 * point.BoardDistance)} from the lens (the blur at the flow grows)");
        Try(PlanQuantity.FocalLength, 2 * focal, $"take a lens of {Mm(2 * focal)} (the view shrinks to half)");
        Try(PlanQuantity.FNumber, advice.FNumber, FormattableString.Invariant($"set f/{advice.FNumber:G3}"));
        Try(PlanQuantity.Dot, point.RecommendedDot, $"print dots of {Mm(point.RecommendedDot)}");
        if (window <= 64)
            Try(PlanQuantity.Window, 2 * window, $"use windows of {2 * window} px (half the resolution)");
        Try(PlanQuantity.Noise, request.Camera.NoiseOfFullScale / 2, "halve the noise: four times the light");
        IEnumerable<string> best = tried.Where(one => one.Gain > WorthWhile).OrderByDescending(one => one.Gain).Take(Named)
            .Select(one => FormattableString.Invariant($"{one.Words}: {one.Gain:F1} times the ratio"));
        return string.Join("; or ", best);

        void Try(PlanQuantity quantity, double value, string words)
        {
            PlanRequest varied = PlanSweep.With(request, quantity, value);
            if (PlanCheck.Problems(varied).Count > 0)
                return;
            PlanContext used = PlanSweep.ChangesErrors(quantity) ? context.For(varied) : context;
            PlanPoint other = PlanPoint.Of(used, varied);
            if (PlanCheckFlow.Problems(other, context.Flow).Count == 0)
                tried.Add((other.SignalToNoise / now, words));
        }
    }

    private static string Mm(double metres) => FormattableString.Invariant($"{metres * 1e3:G3} mm");
}
