using BosFlow.Footage;

namespace BosFlow.Synthesis;

/// <summary>Electronic stabilisation: where each picture is cut out of the sensor's, and the cutting.</summary>
internal static class Stabilisation
{
    private const double ReachInSigmas = 4;

    // An interpolation with four points reaches this far.
    private const int KernelPixels = 2;

    /// <summary>Pixels that the sensor's picture needs beyond every edge.</summary>
    public static int Border(StabilisationSettings settings) => settings.BorderPixels + KernelPixels;

    /// <summary>By how much a frame's picture is shifted: from where its middle row saw the view to the smoothed course, as far as the border allows.</summary>
    /// <param name="settings">Smoothing and border.</param>
    /// <param name="frame">Number of the frame.</param>
    /// <param name="frameCount">Number of frames.</param>
    /// <param name="poseOf">How the view lay when the middle row of a frame was read.</param>
    public static (double X, double Y) ShiftOf(StabilisationSettings settings, int frame, int frameCount, Func<int, CameraPose> poseOf)
    {
        int reach = (int)Math.Ceiling(ReachInSigmas * settings.SmoothingFrames);
        double total = 0, smoothX = 0, smoothY = 0;
        for (int other = Math.Max(0, frame - reach); other <= Math.Min(frameCount - 1, frame + reach); other++)
        {
            double steps = (other - frame) / settings.SmoothingFrames;
            double weight = Math.Exp(-steps * steps / 2);
            CameraPose pose = poseOf(other);
            total += weight;
            smoothX += weight * pose.ShiftX;
            smoothY += weight * pose.ShiftY;
        }

        CameraPose here = poseOf(frame);
        return (Math.Clamp((smoothX / total) - here.ShiftX, -settings.BorderPixels, settings.BorderPixels),
            Math.Clamp((smoothY / total) - here.ShiftY, -settings.BorderPixels, settings.BorderPixels));
    }

    /// <summary>Cuts a picture out of the sensor's by cubic convolution with a = -1/2 (R. G. Keys 1981, doi 10.1109/TASSP.1981.1163711), rounded and clipped to the sensor's levels.</summary>
    /// <param name="sensor">The sensor's picture.</param>
    /// <param name="border">What it has beyond every edge, px.</param>
    /// <param name="shiftX">Shift of the view to the right, px.</param>
    /// <param name="shiftY">Shift of the view down, px.</param>
    /// <param name="round">Whether levels are whole numbers.</param>
    public static GrayImage Cut(GrayImage sensor, int border, double shiftX, double shiftY, bool round)
    {
        int width = sensor.Width - (2 * border);
        int height = sensor.Height - (2 * border);
        (int wholeX, double[] across) = Kernel(-shiftX);
        (int wholeY, double[] down) = Kernel(-shiftY);
        float[] levels = new float[width * height];
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                double sum = 0;
                for (int j = 0; j < 4; j++)
                {
                    ReadOnlySpan<float> line = sensor.Row(y + border + wholeY + j - 1).Slice(x + border + wholeX - 1, 4);
                    sum += down[j] * ((across[0] * line[0]) + (across[1] * line[1]) + (across[2] * line[2]) + (across[3] * line[3]));
                }

                levels[(y * width) + x] = (float)(round ? Math.Clamp(Math.Floor(sum + 0.5), 0, sensor.WhiteLevel) : sum);
            }
        }

        return new GrayImage(width, height, levels, sensor.WhiteLevel);
    }

    private static (int Whole, double[] Weights) Kernel(double shift)
    {
        double whole = Math.Floor(shift);
        double t = shift - whole;
        return ((int)whole,
        [
            ((((-t / 2) + 1) * t) - 0.5) * t,
            ((((1.5 * t) - 2.5) * t * t) + 1),
            ((((-1.5 * t) + 2) * t) + 0.5) * t,
            ((t / 2) - 0.5) * t * t,
        ]);
    }
}
