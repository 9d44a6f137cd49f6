using BosFlow.Numerics.Robust;

namespace BosFlow.Numerics.Tests.Robust;

public sealed class SelectionTests
{
    public static TheoryData<string> Orders => ["random", "ascending", "descending", "few different", "all equal", "sawtooth"];

    [Theory]
    [MemberData(nameof(Orders))]
    public void At_AnyOrderOfTheValues_IsWhatSortingGives(string order)
    {
        var random = new Random(4);
        foreach (int count in new[] { 1, 2, 3, 24, 25, 26, 100, 1001 })
        {
            double[] values = [.. Enumerable.Range(0, count).Select(i => order switch
            {
                "ascending" => i,
                "descending" => -i,
                "few different" => random.Next(3),
                "all equal" => 7,
                "sawtooth" => i % 10,
                _ => random.NextDouble(),
            })];
            double[] sorted = [.. values.Order()];
            foreach (int place in new[] { 0, count / 3, count / 2, count - 1 })
            {
                double[] divided = [.. values];
                Assert.Equal(sorted[place], Selection.At<double>(divided, place));
                Assert.All(divided[..place], value => Assert.True(value <= sorted[place]));
                Assert.All(divided[place..], value => Assert.True(value >= sorted[place]));
            }
        }
    }

    [Fact]
    public void At_InfinityAmongTheValues_StandsLast() => Assert.Equal(double.PositiveInfinity, Selection.At([double.PositiveInfinity, 1, 2], 2));

    [Theory]
    [InlineData(-1)]
    [InlineData(3)]
    public void At_PlaceOutside_Refuses(int place) => Assert.Throws<ArgumentOutOfRangeException>(() => Selection.At([1, 2, 3], place));
}
