using System.Globalization;
using System.Numerics;

namespace BosFlow.Numerics.Tests;

public sealed class VectorTierTests
{
    // The test command runs the kernels' tests again with vector instructions switched off and says here what it expects:
    // a switch that the runtime ignores would repeat the same tier unnoticed.
    [Fact]
    public void VectorTier_AskedFor_IsTheOneThatRuns()
    {
        string? expected = Environment.GetEnvironmentVariable("BOSFLOW_EXPECTED_VECTOR_BITS");
        int bits = Vector.IsHardwareAccelerated ? 32 * Vector<float>.Count : 0;

        if (expected is null)
            Assert.True(bits >= 128, $"{bits} bits");
        else
            Assert.Equal(int.Parse(expected, CultureInfo.InvariantCulture), bits);
    }
}
