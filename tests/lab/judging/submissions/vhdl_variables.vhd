-- against serial-adder n=4: right
library ieee; use ieee.std_logic_1164.all; use ieee.numeric_std.all;
entity adder is port (clk, shift, a_in, b_in : in std_logic; sum : buffer std_logic_vector(3 downto 0); carry : buffer std_logic := '0'); end adder;
architecture v of adder is begin
  process (clk)
    variable a, b : unsigned(3 downto 0) := (others => '0');
    variable t : unsigned(1 downto 0);
  begin
    if rising_edge(clk) then
      if shift = '1' then
        t := resize(a(0 downto 0), 2) + resize(b(0 downto 0), 2) + unsigned'('0' & carry);
        sum <= t(0) & sum(3 downto 1);
        carry <= t(1);
        a := a_in & a(3 downto 1);
        b := b_in & b(3 downto 1);
      end if;
    end if;
  end process;
end v;
