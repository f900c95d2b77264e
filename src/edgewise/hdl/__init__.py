"""HDL in: descriptions in SystemVerilog, Verilog and VHDL, read into circuits."""
