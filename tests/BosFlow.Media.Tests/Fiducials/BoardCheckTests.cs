using BosFlow.Footage;
using BosFlow.Inspection;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;

namespace BosFlow.Media.Tests.Fiducials;

public sealed class BoardCheckTests
{
    [Theory]
    [InlineData(0.04e-3)]
    [InlineData(-0.03e-3)]
    [InlineData(0.15e-3)]
    public void Check_KnownInkGain_IsFoundWithinItsUncertainty(double gain)
    {
        BoardCheck check = BoardPhotos.Check(BoardPhotos.Take(BoardPhotos.Settings with { InkGainMetres = gain, FallOff = 0.3 }), BoardPhotos.Board);

        Assert.True(check.IsSingle);
        Assert.Equal(gain, check.InkGainMetres, 2 * check.InkGainSigma);
        Assert.InRange(check.InkGainSigma, 0, 0.02e-3);
        double truth = check.NominalCoverage * Math.Pow(1 + (gain / 1e-3), 2);
        Assert.Equal(truth, check.Coverage, 2 * check.CoverageSigma);
        Assert.Equal(gain < BoardCheckLimits.Diameter * 1e-3, check.Findings.Single(finding => finding.Subject == "Dots' size").State == CheckState.Good);
    }

    [Theory]
    [InlineData(BoardTones.Inverted)]
    [InlineData(BoardTones.TwoTone)]
    public void Check_OtherTones_ReadsDotsToo(BoardTones tones)
    {
        Board board = BoardMaker.Make(BoardPhotos.Board.Settings with { Tones = tones }, CancellationToken.None);
        GrayImage photo = BoardPhotographer.Take(board, BoardPhotos.Settings with { InkGainMetres = 0 }, CancellationToken.None);

        BoardCheck check = BoardPhotos.Check(photo, board);

        Assert.Equal(1e-3, check.Sizes[0].DiameterMetres, 0.03e-3);
        // Where a black and a white dot almost touch, blur takes from both.
        Assert.InRange((double)check.Sizes[0].Found!.Value / check.Sizes[0].Expected, 0.99, 1);
    }

    [Fact]
    public void Check_EveryEighthDotMissing_CountsThemAndSaysNotOk()
    {
        BoardCheck check = BoardPhotos.Check(BoardPhotos.Take(BoardPhotos.Settings with { EveryMissing = 8 }), BoardPhotos.Board);

        DotSizeCheck size = check.Sizes[0];
        Assert.Equal(7.0 / 8, (double)size.Found!.Value / size.Expected, 0.005);
        Assert.False(check.IsGood);
        Assert.Equal(1.04e-3, size.DiameterMetres, 2 * size.DiameterSigma);
    }

    [Fact]
    public void Check_StretchedPrint_IsToldByPhotoAndByRulers()
    {
        BoardPhotoSettings settings = BoardPhotos.Settings with { Camera = BoardPhotos.Settings.Camera with { PrintScaleX = 1.02, PrintScaleY = 1.0 } };
        GrayImage photo = BoardPhotos.Take(settings);
        BoardRuler across = BoardPhotos.Board.Rulers.Single(ruler => !ruler.IsVertical);
        BoardRuler down = BoardPhotos.Board.Rulers.Single(ruler => ruler.IsVertical);

        BoardCheck alone = BoardPhotos.Check(photo, BoardPhotos.Board);
        BoardCheck ruled = BoardPhotos.Check(photo, BoardPhotos.Board, new BoardCheckSettings { RulerXMetres = across.Length * 1.02, RulerYMetres = down.Length });

        Assert.Null(alone.Scale.X);
        Assert.Equal(1.02, alone.Scale.Ratio, 2 * alone.Scale.RatioSigma);
        Assert.Equal(1.02, ruled.Scale.X!.Value, 6);
        Assert.Equal(1, ruled.Scale.Y!.Value, 6);
        Assert.Contains(ruled.Findings, finding => finding is { Subject: "Scale in x", State: CheckState.Bad });
        Assert.Contains(ruled.Findings, finding => finding is { Subject: "Scale in y", State: CheckState.Good });
    }

    [Fact]
    public void Check_PaleInk_IsNotOk()
    {
        BoardCheck check = BoardPhotos.Check(BoardPhotos.Take(BoardPhotos.Settings with { InkShare = 0.4 }), BoardPhotos.Board);

        Assert.Contains(check.Findings, finding => finding is { Subject: "Contrast", State: CheckState.Bad });
    }

    [Fact]
    public void Check_PhotoGivenAsScan_SaysSo()
    {
        BoardCheck check = BoardPhotos.Check(BoardPhotos.Usual, BoardPhotos.Board, new BoardCheckSettings { ScanDpi = 190 });

        CheckFinding finding = check.Findings.Single(one => one.Subject == "Scan");
        Assert.Contains("this is a photo, not a scan, so leave out --scan-dpi", finding.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_SmallDots_FallsBackToTheCoveredArea()
    {
        BoardPhotoSettings far = BoardPhotos.Settings with
        {
            Camera = BoardPhotos.Settings.Camera with { Position = (0, 0, 0.34) },
            BlurPixels = 0.5,
            InkGainMetres = 0.05e-3,
        };

        BoardCheck check = BoardPhotos.Check(BoardPhotos.Take(far), BoardPhotos.Board);

        Assert.False(check.IsSingle);
        Assert.Equal(0.05e-3, check.InkGainMetres, 2 * check.InkGainSigma);
        Assert.InRange(check.InkGainSigma, 0, 0.08e-3);
    }

    [Fact]
    public void Check_WithoutFiducialsInThePicture_SaysWhatToDo()
    {
        var grey = new GrayImage(300, 200, new float[300 * 200], 255);

        InputDataException problem = Assert.Throws<InputDataException>(() => BoardPhotos.Check(grey, BoardPhotos.Board));

        Assert.StartsWith("No fiducials were found in the photo (300 x 200 px)", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_AnotherBoard_SaysSo()
    {
        GrayImage photo = BoardPhotos.Usual;
        Board strange = BoardPhotos.Board with { Fiducials = [.. BoardPhotos.Board.Fiducials.Select(mark => mark with { Id = mark.Id + 100 })] };
        Board moved = BoardPhotos.Board with { Fiducials = [.. BoardPhotos.Board.Fiducials.Select((mark, i) => mark with { X = mark.X + (0.03 * ((i * 7) % 5)), Y = mark.Y + (0.04 * ((i * 3) % 4)) })] };

        Assert.Contains("another board", Assert.Throws<InputDataException>(() => BoardPhotos.Check(photo, strange)).Message, StringComparison.Ordinal);
        Assert.Contains("another board", Assert.Throws<InputDataException>(() => BoardPhotos.Check(photo, moved)).Message, StringComparison.Ordinal);
        Assert.Contains("without fiducials", Assert.Throws<InputDataException>(() => BoardPhotos.Check(photo, BoardPhotos.Board with { Fiducials = [] })).Message, StringComparison.Ordinal);
        Assert.Contains("no dots", Assert.Throws<InputDataException>(() => BoardPhotos.Check(photo, BoardPhotos.Board with { Dots = [] })).Message, StringComparison.Ordinal);
    }
}
