using BosFlow.Footage;
using CsCheck;

namespace BosFlow.Tests.Footage;

public sealed class NaturalOrderTests
{
    [Fact]
    public void Compare_NumbersInNames_CountAsNumbers()
    {
        string[] names = ["frame10.png", "frame2.png", "a1b10", "frame1.png", "a1b9", "frame007.png", "Frame3.png", "frame99999999999999999999999.png"];

        Array.Sort(names, NaturalOrder.Instance);

        Assert.Equal(["Frame3.png", "a1b9", "a1b10", "frame1.png", "frame2.png", "frame007.png", "frame10.png", "frame99999999999999999999999.png"], names);
    }

    [Fact]
    public void Compare_SameNumberOtherZeros_StaysATotalOrder()
    {
        Assert.True(NaturalOrder.Instance.Compare("f01", "f1") < 0);
        Assert.True(NaturalOrder.Instance.Compare("f1", "f01") > 0);
        Assert.Equal(0, NaturalOrder.Instance.Compare("f01", "f01"));
    }

    [Fact]
    public void Compare_AnyNames_IsAntisymmetricAndTransitive()
    {
        Gen<string> name = Gen.Char["ab019."].Array[0, 6].Select(letters => new string(letters));

        Gen.Select(name, name, name).Sample((a, b, c) =>
        {
            NaturalOrder order = NaturalOrder.Instance;
            bool antisymmetric = Math.Sign(order.Compare(a, b)) == -Math.Sign(order.Compare(b, a));
            bool transitive = !(order.Compare(a, b) <= 0 && order.Compare(b, c) <= 0) || order.Compare(a, c) <= 0;
            bool equalOnlyItself = (order.Compare(a, b) == 0) == (a == b);
            return antisymmetric && transitive && equalOnlyItself;
        });
    }
}
