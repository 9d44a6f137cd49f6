using System.Reflection;
using System.Runtime.InteropServices;
using BosFlow.Displacement;

namespace BosFlow.Tests.Displacement;

/// <summary>Compares two fields in everything they hold, floats bit by bit.</summary>
internal static class SameField
{
    public static void Check(VectorField expected, VectorField actual)
    {
        foreach (PropertyInfo part in typeof(VectorField).GetProperties())
        {
            object? wanted = part.GetValue(expected), found = part.GetValue(actual);
            Assert.Equal(wanted, found);
            if (wanted is float[] values)
                Assert.True(MemoryMarshal.AsBytes<float>(values).SequenceEqual(MemoryMarshal.AsBytes<float>((float[])found!)), $"{part.Name} differs in its bits.");
        }
    }
}
