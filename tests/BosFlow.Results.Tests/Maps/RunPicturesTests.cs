using BosFlow.Results.Maps;

namespace BosFlow.Results.Tests.Maps;

public sealed class RunPicturesTests
{
    [Fact]
    public void Of_SameSummaryTwice_GivesSameBytes()
    {
        IReadOnlyList<RunPicture> one = RunPictures.Of(SampleRun.Summary(), CancellationToken.None);
        IReadOnlyList<RunPicture> two = RunPictures.Of(SampleRun.Summary(), CancellationToken.None);

        foreach ((RunPicture a, RunPicture b) in one.Zip(two))
            Assert.Equal(a.Png, b.Png);
    }

    [Fact]
    public void Of_WithScale_ShowsEachGradientComponentAndTheKnifeEdge()
    {
        string[] names = [.. RunPictures.Of(SampleRun.Summary(), CancellationToken.None).Select(p => p.FileName)];

        Assert.Equal(
            ["density_gradient_path_x.png", "density_gradient_path_y.png", "knife_edge.png", "displacement_x.png", "displacement_y.png", "displacement_magnitude.png", "quiver.png", "displacement_sigma.png", "displacement_rms.png"],
            names);
    }

    [Fact]
    public void Of_WithoutScale_ShowsDisplacementsOnly()
    {
        IReadOnlyList<RunPicture> pictures = RunPictures.Of(SampleRun.Summary(withScale: false), CancellationToken.None);

        Assert.DoesNotContain(pictures, p => p.FileName.StartsWith("density", StringComparison.Ordinal));
        Assert.Contains("px", pictures.Single(p => p.FileName == "knife_edge.png").Caption, StringComparison.Ordinal);
    }
}
