using System.Globalization;
using BosFlow.Results.Maps;

namespace BosFlow.Results.Tests.Maps;

public sealed class CieLabTests
{
    // OpenCV's own conversion (sRGB to L*a*b*, D65, 32-bit float) as an independent reference; it interpolates its curves.
    [Fact]
    public void OfSrgb_ManyColours_AgreesWithOpenCv()
    {
        (byte R, byte G, byte B)[] colours = [(0, 0, 0), (255, 255, 255), (255, 0, 0), (0, 255, 0), (0, 0, 255), (12, 34, 56), (200, 120, 40), (7, 90, 160), (128, 128, 128), (3, 2, 1)];
        string list = string.Join(',', colours.Select(c => $"[{c.R},{c.G},{c.B}]"));

        string output = ChildProcess.Python($"import numpy as n,cv2;print(*cv2.cvtColor((n.array([[{list}]],n.float32)/255),cv2.COLOR_RGB2Lab).ravel())");

        double[] expected = [.. output.Split(' ').Select(text => double.Parse(text, CultureInfo.InvariantCulture))];
        for (int i = 0; i < colours.Length; i++)
        {
            CieLab ours = CieLab.OfSrgb(colours[i].R, colours[i].G, colours[i].B);
            Assert.InRange(ours.DistanceTo(new CieLab(expected[3 * i], expected[(3 * i) + 1], expected[(3 * i) + 2])), 0, 0.3);
        }
    }

    [Fact]
    public void ToSrgb_AfterOfSrgb_IsTheSameColour()
    {
        for (int i = 0; i < 4096; i++)
        {
            var colour = ((byte)((i & 15) * 17), (byte)(((i >> 4) & 15) * 17), (byte)((i >> 8) * 17));
            Assert.Equal(colour, CieLab.OfSrgb(colour.Item1, colour.Item2, colour.Item3).ToSrgb());
        }
    }
}
