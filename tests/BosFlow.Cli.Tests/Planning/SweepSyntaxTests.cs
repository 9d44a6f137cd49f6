using BosFlow.Cli.Planning;
using BosFlow.Planning;
using BosFlow.Results.Plans;

namespace BosFlow.Cli.Tests.Planning;

public sealed class SweepSyntaxTests
{
    public static TheoryData<string, string> Mistakes => new()
    {
        { "f_number", "--sweep f_number has no values; write it like f_number=2.8:22, f_number=2.8:22:8 (with the number of steps) or f_number=2.8,4,5.6." },
        { "f_number=", "--sweep f_number= has no values; write it like f_number=2.8:22, f_number=2.8:22:8 (with the number of steps) or f_number=2.8,4,5.6." },
        { "fnumber=2.8:22", "--sweep fnumber=2.8:22 names no quantity that can be varied; did you mean f_number?" },
        { "focal_length=8:50", "--sweep focal_length=8:50 names no quantity that can be varied; did you mean focal_length_mm?" },
        { "exposure_s=0.001:0.1", "--sweep exposure_s=0.001:0.1 names no quantity that can be varied; did you mean exposure_ms?" },
        { "colour=1:2", "--sweep colour=1:2 names no quantity that can be varied; these can: split, lens_to_flow_mm, flow_to_background_mm, focal_length_mm, f_number, dot_mm, exposure_ms, noise_percent, window_px." },
        { "f_number=22:2.8", "--sweep f_number=22:2.8 runs backwards; write f_number=2.8:22." },
        { "f_number=4:4", "--sweep f_number=4:4 begins and ends at the same value; write it like f_number=2.8:22, f_number=2.8:22:8 (with the number of steps) or f_number=2.8,4,5.6." },
        { "f_number=2.8:22:1", "--sweep f_number=2.8:22:1 has 1 as its number of steps; give a whole number from 2 to 60." },
        { "f_number=2.8:22:many", "--sweep f_number=2.8:22:many has many as its number of steps; give a whole number from 2 to 60." },
        { "f_number=1:2:3:4", "--sweep f_number=1:2:3:4 has too many colons; write it like f_number=2.8:22, f_number=2.8:22:8 (with the number of steps) or f_number=2.8,4,5.6." },
        { "f_number=4", "--sweep f_number=4 has a single value; write at least two, like f_number=2.8:22, f_number=2.8:22:8 (with the number of steps) or f_number=2.8,4,5.6." },
        { "f_number=4,4", "--sweep f_number=4,4 has 4 twice; give each value once." },
        { "f_number=0:22", "--sweep f_number=0:22 has a value that cannot be: 0 is out of range; give a number greater than 0 and at most 128." },
        { "focal_length_mm=8mm:50", "--sweep focal_length_mm=8mm:50 has a value that cannot be: 8mm carries its unit, which the name of the option gives; write 8 for mm." },
        { "split=0:1", "--sweep split=0:1 has a value that cannot be: 0; a split is the part of the distance from lens to board that lies behind the flow, so give numbers from 0.01 to 0.99." },
        { "window_px=15:64", "--sweep window_px=15:64 has a value that cannot be: 15 is not allowed; give a whole even number from 8 to 128 px." },
    };

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Read_Mistake_TellsWhatToWrite(string typed, string sentence)
    {
        Assert.Equal([sentence], Problems(typed));
    }

    [Fact]
    public void Read_ThreeQuantities_AreTooMany()
    {
        Assert.Equal(["--sweep is given 3 times; give it at most twice."], Problems("split=0.2:0.8", "f_number=2:8", "dot_mm=1:2"));
    }

    [Fact]
    public void Read_TheSameQuantityTwice_IsRefused()
    {
        Assert.Equal(["--sweep varies f_number twice; name two different quantities."], Problems("f-number=2:8", "f_number=4,8"));
    }

    [Fact]
    public void Read_RangeOfFNumbers_HasEqualRatiosAndTheTypedEnds()
    {
        SweepAxis axis = Assert.Single(SweepSyntax.Read(["f_number=2.8:22:4"]));

        Assert.Equal(PlanQuantity.FNumber, axis.Quantity);
        Assert.Equal(2.8, axis.Values[0]);
        Assert.Equal(22, axis.Values[3]);
        Assert.Equal(axis.Values[1] / axis.Values[0], axis.Values[3] / axis.Values[2], 12);
    }

    [Fact]
    public void Read_LengthsAndWindows_AreInSiUnitsAndEven()
    {
        SweepAxis focal = SweepSyntax.Read(["focal_length_mm=25,8,16"])[0];
        SweepAxis window = SweepSyntax.Read(["window_px=16:24:12"])[0];

        Assert.Equal([0.008, 0.016, 0.025], focal.Values);
        Assert.Equal([16.0, 18, 20, 22, 24], window.Values);
    }

    [Fact]
    public void Read_RangeWithoutSteps_HasTwelve()
    {
        SweepAxis axis = SweepSyntax.Read(["split=0.2:0.8"])[0];

        Assert.Equal(12, axis.Values.Count);
        Assert.Equal(0.2 + (0.6 / 11), axis.Values[1], 12);
    }

    private static IReadOnlyList<string> Problems(params string[] typed) =>
        Assert.Throws<ConfigurationException>(() => SweepSyntax.Read(typed)).Problems;
}
