using System.Numerics;
using BosFlow.Numerics.Robust;

namespace BosFlow.Numerics.Tests.Robust;

public sealed class MedianOfEightTests
{
    // A network that orders all rows of zeros and ones orders everything (D. E. Knuth, The Art of Computer Programming 3, 5.3.4: the zero-one principle, from memory).
    [Fact]
    public void Of_AllRowsOfZerosAndOnes_IsTheMeanOfTheTwoInTheMiddle()
    {
        for (int pattern = 0; pattern < 256; pattern++)
        {
            float[] values = [.. Enumerable.Range(0, MedianOfEight.Count).Select(bit => (float)((pattern >> bit) & 1))];
            int ones = BitOperations.PopCount((uint)pattern);

            Assert.Equal(ones < 4 ? 0 : ones == 4 ? 0.5f : 1, MedianOfEight.Of(values));
        }
    }

    [Fact]
    public void Of_AnyValues_IsTheMedianOfSortedValues()
    {
        var random = new Random(8);
        for (int i = 0; i < 200; i++)
        {
            float[] values = [.. Enumerable.Range(0, MedianOfEight.Count).Select(_ => random.NextSingle() - 0.5f)];

            Assert.Equal(Quantiles.Median<float>([.. values]), MedianOfEight.Of(values));
        }
    }

    [Theory]
    [InlineData(7)]
    [InlineData(9)]
    public void Of_AnotherNumberOfValues_IsRefused(int count) => Assert.Throws<ArgumentException>(() => MedianOfEight.Of(new float[count]));
}
