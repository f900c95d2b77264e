-- against serial-adder n=4: right
library ieee; use ieee.std_logic_1164.all;
entity fa is port (a, b, ci : in std_logic; s, co : out std_logic); end fa;
architecture d of fa is begin
  with std_logic_vector'(a & b & ci) select s <= '1' when "001" | "010" | "100" | "111", '0' when others;
  co <= '1' when (a = '1' and b = '1') or (ci = '1' and (a = '1' or b = '1')) else '0';
end d;
library ieee; use ieee.std_logic_1164.all;
entity dff is generic (init : std_logic := '0'); port (clk, en, d : in std_logic; q : out std_logic); end dff;
architecture b of dff is signal i : std_logic := init; begin
  process (clk) begin if rising_edge(clk) then if en = '1' then i <= d; end if; end if; end process; q <= i;
end b;
library ieee; use ieee.std_logic_1164.all;
entity adder is port (clk, shift, a_in, b_in : in std_logic; sum : out std_logic_vector(3 downto 0); carry : out std_logic); end adder;
architecture s of adder is
  component fa port (a, b, ci : in std_logic; s, co : out std_logic); end component;
  component dff generic (init : std_logic := '0'); port (clk, en, d : in std_logic; q : out std_logic); end component;
  signal a, b, s : std_logic_vector(4 downto 0); signal c, co : std_logic;
begin
  a(4) <= a_in; b(4) <= b_in;
  g : for i in 3 downto 0 generate
    ra : dff port map (clk, shift, a(i+1), a(i));
    rb : dff port map (clk, shift, b(i+1), b(i));
    rs : dff port map (clk, shift, s(i+1), s(i));
  end generate;
  f : fa port map (a => a(0), b => b(0), ci => c, s => s(4), co => co);
  rc : dff port map (clk => clk, en => shift, d => co, q => c);
  sum <= s(3 downto 0); carry <= c;
end s;
