using BosFlow.Results.NetCdf;
using BosFlow.TestKit;
using CsCheck;

namespace BosFlow.Results.Tests.NetCdf;

public sealed class NetCdfFileTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Read_WhatWasWritten_IsTheSameBitForBit()
    {
        NetCdfContent content = SampleContent.Small();

        NetCdfFile.Write(folder.PathOf("a.nc"), content);

        SampleContent.AssertSame(content, NetCdfFile.Read(folder.PathOf("a.nc")));
    }

    [Fact]
    public void Read_ArraysOfAnyBitPatternAndShape_AreTheSameBitForBit() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 40], Gen.Int).Sample(
            (rows, columns, seed) =>
            {
                float[] values = new float[rows * columns];
                new Random(seed).NextBytes(System.Runtime.InteropServices.MemoryMarshal.AsBytes(values.AsSpan()));
                NetCdfContent content = Grid(rows, columns, values);
                byte[] bytes = NetCdfWriter.ToBytes(content);
                SampleContent.AssertSame(content, NetCdfReader.FromBytes(bytes, "memory"));
            },
            iter: 60, seed: "0N0XIzNsQ0O2");

    [Fact]
    public void Write_PictureSizedVariable_ReadsBackBitForBit()
    {
        float[] values = [.. Enumerable.Range(0, 1100 * 1030).Select(i => MathF.Sin(i * 0.37f))];
        NetCdfContent content = Grid(1100, 1030, values);

        NetCdfFile.Write(folder.PathOf("a.nc"), content);

        Assert.Equal(values, NetCdfFile.Read(folder.PathOf("a.nc")).Values<float>("u"));
        Assert.Equal("True", ChildProcess.Python("import sys,numpy as n,xarray as x;print(bool(n.abs(x.open_dataset(sys.argv[1]).u.values.ravel()-n.sin(n.arange(1100*1030)*0.37)).max()<0.05))", folder.PathOf("a.nc")).Trim());
    }

    [Fact]
    public void Write_SameContentTwice_GivesSameBytes()
    {
        NetCdfFile.Write(folder.PathOf("a.nc"), SampleContent.Small());
        NetCdfFile.Write(folder.PathOf("b.nc"), SampleContent.Small());

        Assert.Equal(File.ReadAllBytes(folder.PathOf("a.nc")), File.ReadAllBytes(folder.PathOf("b.nc")));
    }

    [Fact]
    public void Write_ContradictoryContent_IsRefusedAndLeavesNothing()
    {
        NetCdfContent good = SampleContent.Small();
        NetCdfVariable u = good.Variable("u");

        foreach (NetCdfVariable bad in new[] { u with { Data = new float[5] }, u with { Dimensions = ["y", "z"] }, u with { Name = "x y" }, u with { Data = new long[6] }, u with { Attributes = [new("units", "m")] } })
            Assert.Throws<ArgumentException>(() => NetCdfFile.Write(folder.PathOf("a.nc"), good with { Variables = [.. good.Variables.Where(v => v.Name != "u"), bad] }));

        Assert.Empty(Directory.GetFileSystemEntries(folder.Root));
    }

    [Fact]
    public void Read_MissingFile_SaysWhichAndWhatToDo()
    {
        InputDataException e = Assert.Throws<InputDataException>(() => NetCdfFile.Read(folder.PathOf("none.nc")));

        Assert.Contains("none.nc", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(10)]
    [InlineData(100)]
    [InlineData(3000)]
    public void Read_FileCutShort_IsRefused(int length)
    {
        byte[] bytes = NetCdfWriter.ToBytes(SampleContent.Small());

        Assert.Throws<InputDataException>(() => NetCdfReader.FromBytes(bytes[..length], "cut.nc"));
    }

    [Fact]
    public void Read_OneByteDamagedAnywhere_IsNoticedOrHarmless()
    {
        NetCdfContent content = SampleContent.Small();
        byte[] bytes = NetCdfWriter.ToBytes(content);
        int noticed = 0;
        SampleContent.AssertSame(content, NetCdfReader.FromBytes(bytes, "whole.nc"));

        for (int at = 0; at < bytes.Length; at += 7)
        {
            byte[] damaged = [.. bytes];
            damaged[at] ^= 0x55;
            try
            {
                SampleContent.AssertSame(content, NetCdfReader.FromBytes(damaged, "damaged.nc"));
            }
            catch (InputDataException)
            {
                noticed++;
            }
        }

        // The rest is padding and free space that says nothing.
        Assert.InRange(noticed, bytes.Length / 21, bytes.Length / 7);
    }

    [Fact]
    public void Read_FileOfAnotherProgram_IsRefused()
    {
        ChildProcess.Python("import sys,netCDF4;d=netCDF4.Dataset(sys.argv[1],'w');d.createDimension('x',3);d.createVariable('x','f8',('x',))[:]=[1,2,3];d.close()", folder.PathOf("other.nc"));
        File.WriteAllText(folder.PathOf("text.nc"), "not a netCDF file");

        Assert.Throws<InputDataException>(() => NetCdfFile.Read(folder.PathOf("other.nc")));
        Assert.Throws<InputDataException>(() => NetCdfFile.Read(folder.PathOf("text.nc")));
    }

    private static NetCdfContent Grid(int rows, int columns, float[] values) => new()
    {
        Variables =
        [
            new() { Name = "y", Dimensions = ["y"], Data = Enumerable.Range(0, rows).Select(i => i * 1.0).ToArray(), Unit = "px", LongName = "row" },
            new() { Name = "x", Dimensions = ["x"], Data = Enumerable.Range(0, columns).Select(i => i * 1.0).ToArray(), Unit = "px", LongName = "column" },
            new() { Name = "u", Dimensions = ["y", "x"], Data = values, Unit = "px", LongName = "displacement" },
        ],
    };
}
