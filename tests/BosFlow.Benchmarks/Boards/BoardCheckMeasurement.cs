namespace BosFlow.Benchmarks.Boards;

internal static class BoardCheckMeasurement
{
    public static void Run(MeasurementOptions options)
    {
        foreach (double dot in new[] { 9.0, 4.0 })
        for (int i = 0; i < 16; i++)
        {
            try {
            BoardPhoto p = BoardPhoto.Draw(i, dot);
            var c = p.Check;
            double gain = p.Truth.InkGainMetres;
            double ratio = p.Truth.Camera.PrintScaleX / p.Truth.Camera.PrintScaleY;
            Console.WriteLine(FormattableString.Invariant($"{i} tilt {p.Truth.Camera.TiltRadians*57.3:0.0} f {p.Truth.Camera.FocalPixels/2400:0.00} blur {p.Truth.BlurPixels:0.00}/{c.BlurPixels:0.00} marks {c.FiducialsFound.Count}/{c.FiducialsOnBoard} rms {c.Plane.RmsPixels:0.00} grow {c.Plane.EdgeGrowthMetres*2e3:0.000} gain {gain*1e3:0.000} err {(c.InkGainMetres-gain)*1e3:+0.0000;-0.0000} +- {c.InkGainSigma*1e3:0.0000} ratio err {(c.Scale.Ratio/ratio-1)*100:+0.000;-0.000} +- {c.Scale.RatioSigma*100:0.000} cov {c.NominalCoverage:0.000} {c.Coverage:0.000} {c.Sizes[0].Found}/{c.Sizes[0].Expected} px {c.Sizes[0].ImagePixels:0.0} good {c.IsGood}"));
            } catch (Exception e) { Console.WriteLine($"{i} {e.Message}"); if (e is not InputDataException) Console.WriteLine(e); }
        }
    }
}
