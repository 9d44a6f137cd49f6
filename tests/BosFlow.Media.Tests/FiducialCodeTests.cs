using BosFlow.Speckle.Boards;
using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace BosFlow.Media.Tests;

public sealed class FiducialCodeTests
{
    [Fact]
    public void IsBlack_EveryCellOfEveryMark_IsThatOfOpenCvsDictionary()
    {
        // Outside reference: OpenCV 4.13, predefined dictionary DICT_ARUCO_MIP_36h12. Its number, 21, has no name in this version of the wrapper.
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary((PredefinedDictionaryType)21);
        using Mat bytes = dictionary.BytesList;
        Assert.Equal(bytes.Rows, FiducialCode.Count);
        Assert.Equal(FiducialCode.Cells - 2, dictionary.MarkerSize);
        for (int id = 0; id < FiducialCode.Count; id++)
        {
            using var mark = new Mat();
            dictionary.GenerateImageMarker(id, FiducialCode.Cells, mark, 1);
            for (int row = 0; row < FiducialCode.Cells; row++)
            {
                for (int column = 0; column < FiducialCode.Cells; column++)
                    Assert.Equal(mark.At<byte>(row, column) == 0, FiducialCode.IsBlack(id, row, column));
            }
        }
    }
}
