using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Media.Fiducials;
using BosFlow.Speckle.Boards;

namespace BosFlow.Media.Tests.Fiducials;

public sealed class FiducialFinderTests
{
    [Fact]
    public void Find_PhotoOfABoard_GivesEveryIdentityWithItsCorners()
    {
        PlaneMap map = BoardPhotos.Settings.Camera.ToMap();

        IReadOnlyList<FiducialSighting> found = FiducialFinder.Find(BoardPhotos.Take(BoardPhotos.Settings with { InkGainMetres = 0 }));

        Assert.Equal(BoardPhotos.Board.Fiducials.Select(mark => mark.Id), found.Select(sighting => sighting.Id));
        foreach ((FiducialSighting sighting, Fiducial mark) in found.Zip(BoardPhotos.Board.Fiducials))
        {
            (double x, double y) = map.ToPicture(mark.X - (mark.Side / 2), mark.Y - (mark.Side / 2));
            // Blur draws a corner of black inward, by about its own width.
            Assert.InRange(double.Hypot(sighting.Corners[0].X - x, sighting.Corners[0].Y - y), 0, 1.2);
        }
    }

    [Fact]
    public void Find_PictureWithoutFiducials_GivesNone()
    {
        float[] pixels = [.. Enumerable.Range(0, 200 * 200).Select(i => (float)((i * 37) % 251))];

        Assert.Empty(FiducialFinder.Find(new GrayImage(200, 200, pixels, 255)));
        Assert.Empty(FiducialFinder.Find(new GrayImage(200, 200, new float[200 * 200], 255)));
    }

    [Fact]
    public void Consensus_OneFiducialElsewhere_LeavesItOut()
    {
        List<FiducialSighting> found = [.. FiducialFinder.Find(BoardPhotos.Usual)];
        found[2] = found[2] with { Corners = [.. found[2].Corners.Select(corner => (corner.X + 150, corner.Y - 90))] };

        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(found, BoardPhotos.Board.Fiducials, BoardPhotos.Width, BoardPhotos.Height);

        Assert.Equal(4 * (found.Count - 1), corners.Count);
    }

    [Fact]
    public void Consensus_FiducialsOfAnotherBoard_GivesNone()
    {
        Fiducial[] others = [.. BoardPhotos.Board.Fiducials.Select(mark => mark with { Id = mark.Id + 100 })];

        Assert.Empty(FiducialConsensus.Of(FiducialFinder.Find(BoardPhotos.Usual), others, BoardPhotos.Width, BoardPhotos.Height));
    }
}
